"""The built program, called from outside with nothing but what a test gives it."""
import json
import os
import subprocess
import sys
import tempfile

from tap import equal

PROGRAM = os.path.abspath(sys.argv[1])
SOURCE = os.path.abspath(sys.argv[2])
FOLDER = tempfile.TemporaryDirectory(prefix='platelift-commands-')


class Result:
    def __init__(self, done):
        self.status = done.returncode
        self.out = done.stdout.decode('utf-8')
        self.err = done.stderr.decode('utf-8')


def call(*words, env=None, cwd=None, **more):
    """No display, no bus, no HOME: the environment is empty unless given."""
    done = subprocess.run([PROGRAM, *words], env=env or {}, cwd=cwd or FOLDER.name, stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=60, check=False, **more)
    return Result(done)


def good(*words, **more):
    """The output of a call that must succeed and say nothing on standard error."""
    result = call(*words, **more)
    equal((result.status, result.err), (0, ''), ' '.join(words))
    return result.out


def no_constant(name):
    raise ValueError(f'{name} is not JSON')


def parse(text):
    """Strict: neither NaN nor a key twice."""
    def members(pairs):
        keys = [key for key, _ in pairs]
        equal(sorted(set(keys)), sorted(keys), 'keys given twice')
        return dict(pairs)
    return json.loads(text, parse_constant=no_constant, object_pairs_hook=members)


def mixture(*words, **more):
    return parse(good('--mixture', '--json', *words, **more))


def path(name):
    return os.path.join(FOLDER.name, name)


def write(name, content):
    with open(path(name), 'wb') as stream:
        stream.write(content if isinstance(content, bytes) else content.encode())
    return path(name)
