"""app/run and app/install-packages with a stand-in for apt, dpkg-query, id and sudo: what they do with which rights."""
import os
import re
import shutil
import subprocess
import sys

import tap
from program import FOLDER, PROGRAM, SOURCE
from tap import equal, holds

PACKAGES = [line.split('#')[0].strip() for line in open(os.path.join(SOURCE, 'app/packages'), encoding='utf-8')]
PACKAGES = [name for name in PACKAGES if name]
CASES = 0


class House:
    """A copy of the scripts, with commands of ours before all others in PATH. missing: packages not installed."""

    def __init__(self, missing=(), user=1000, sudo=False):
        global CASES
        CASES += 1
        self.root = os.path.join(FOLDER.name, f'house {CASES}')
        os.makedirs(f'{self.root}/bin')
        shutil.copytree(os.path.join(SOURCE, 'app'), f'{self.root}/app', ignore=lambda folder, names: [
            name for name in names if os.path.isdir(os.path.join(folder, name)) or name.endswith(('.c', '.h'))])
        self.command('id', f'echo {user}')
        self.command('sudo', f'[ "$1" = -n ] && exit {0 if sudo else 1}\necho "sudo $*" >>"{self.root}/log"\nexec env "$@"')
        self.command('apt-get', f'echo "apt-get $*" >>"{self.root}/log"')
        gone = ' '.join(missing)
        self.command('dpkg-query', 'for last; do :; done\n'
                     f'case " {gone} " in *" $last "*) echo not-installed ;; *) printf installed ;; esac')
        # a build folder that is up to date
        self.command('ninja', f'echo "ninja $*" >>"{self.root}/log"')
        os.makedirs(f'{self.root}/build/app')
        open(f'{self.root}/build/build.ninja', 'w', encoding='utf-8').close()
        os.symlink(PROGRAM, f'{self.root}/build/app/platelift')

    def command(self, name, text):
        with open(f'{self.root}/bin/{name}', 'w', encoding='utf-8') as stream:
            stream.write('#!/bin/sh\n' + text + '\n')
        os.chmod(f'{self.root}/bin/{name}', 0o755)

    def call(self, script, *words, **env):
        return subprocess.run([f'{self.root}/{script}', *words], capture_output=True, text=True, check=False,
                              stdin=subprocess.DEVNULL, cwd='/', start_new_session=True,
                              env={'PATH': f'{self.root}/bin:/usr/bin:/bin', **env})

    def log(self):
        try:
            with open(f'{self.root}/log', encoding='utf-8') as stream:
                return stream.read().splitlines()
        except FileNotFoundError:
            return []


def test_the_list_has_one_package_a_line_and_none_twice():
    holds(len(PACKAGES) > 10)
    equal(sorted(set(PACKAGES)), sorted(PACKAGES))
    for name in PACKAGES:
        holds(re.fullmatch(r'[a-z0-9][a-z0-9+.-]+', name), name)


def test_nothing_missing_means_no_apt_and_no_sudo():
    house = House()
    done = house.call('app/install-packages')
    equal((done.returncode, done.stdout, done.stderr, house.log()), (0, '', '', []))


def test_root_installs_what_is_missing_and_no_more():
    house = House(missing=['meson', 'xvfb'], user=0)
    done = house.call('app/install-packages')
    equal((done.returncode, done.stdout), (0, ''))
    equal(house.log()[0], 'apt-get -q update')
    equal(house.log()[1], 'apt-get -q install -y --no-install-recommends meson xvfb')


def test_sudo_is_used_for_apt_only():
    house = House(missing=['meson'], sudo=True)
    equal(house.call('app/run', '--version').returncode, 0)
    equal([line for line in house.log() if line.startswith('sudo')],
          ['sudo DEBIAN_FRONTEND=noninteractive apt-get -q update',
           'sudo DEBIAN_FRONTEND=noninteractive apt-get -q install -y --no-install-recommends meson'])


def test_without_rights_the_line_to_type_is_printed():
    for script in ('app/install-packages', 'app/run', 'tests/run'):
        house = House(missing=['meson', 'gettext'])
        shutil.copytree(os.path.join(SOURCE, 'tests/self'), f'{house.root}/tests/self')
        for name in ('run', 'count'):
            shutil.copy(os.path.join(SOURCE, 'tests', name), f'{house.root}/tests/{name}')
        done = house.call(script)
        equal(done.returncode, 2, script)
        holds('sudo apt-get install' in done.stdout and 'meson' in done.stdout, done.stdout)
        equal([line for line in house.log() if 'apt' in line], [])
        if script == 'tests/run':
            equal(done.stdout.splitlines()[-1], '0 passed, 1 failed')


def test_run_without_display_prints_a_mixture_and_draws_it():
    house = House()
    done = house.call('app/run')
    equal((done.returncode, done.stderr), (0, ''))
    holds('Lambda' in done.stdout, done.stdout)
    with open(f'{house.root}/build/mixture.png', 'rb') as stream:
        equal(stream.read(8), b'\x89PNG\r\n\x1a\n')


def test_root_opens_no_window_on_the_display_of_somebody_else():
    for env in ({'DISPLAY': ':77.0'}, {'WAYLAND_DISPLAY': 'wayland-7', 'XDG_RUNTIME_DIR': '/run/user/1000'}):
        for owner, warned in ((1000, True), (0, False)):
            house = House(user=0)
            house.command('stat', f'echo "$*" >>"{house.root}/log"; echo {owner}')
            done = house.call('app/run', **env)
            equal(done.returncode, 0)
            equal('somebody else' in done.stderr, warned, f'{env} {owner}: {done.stderr}')
            holds('Lambda' in done.stdout, done.stdout)  # neither display exists here
            holds(house.log()[-1].endswith(('/tmp/.X11-unix/X77', '/run/user/1000/wayland-7')), house.log())


def test_run_hands_its_words_to_the_program():
    house = House()
    equal(house.call('app/run', '--version').stdout.split()[0], 'Platelift')
    equal(house.call('app/run', '--air', '18').returncode, 2)


def test_run_builds_first():
    house = House()
    house.call('app/run', '--version')
    equal(house.log(), [f'ninja -C {house.root}/build'])


def test_a_build_that_fails_is_told():
    house = House()
    house.command('ninja', 'echo "this is broken"; exit 1')
    done = house.call('app/run', '--version')
    equal((done.returncode, done.stdout), (2, ''))
    holds('this is broken' in done.stderr, done.stderr)


def test_tests_run_refuses_unknown_words():
    done = subprocess.run([os.path.join(SOURCE, 'tests/run'), '--fast'], capture_output=True, text=True, check=False)
    equal(done.returncode, 2)
    holds('--fast' in done.stderr, done.stderr)


sys.exit(tap.run(sys.modules[__name__]))
