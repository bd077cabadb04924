"""--mixture, --list-cars, --help and --version of the built program."""
import math
import os
import re
import subprocess
import sys

import tap
from program import FOLDER, PROGRAM, SOURCE, call, good, mixture, parse, path
from tap import Skip, equal, holds, near

# Key: value where nothing is given. The keys carry the units.
CONDITIONS = {'air_kg_per_h': 18, 'coolant_deg_c': 80, 'minutes': 0, 'vacuum_mbar': 500, 'altitude_m': 0,
              'ambient_deg_c': 20, 'humidity_percent': 0, 'fuel_deg_c': 20, 'voltage_v': 13}
VALUES = ['lambda', 'air_fuel_ratio', 'plate_lift_mm', 'plunger_lift_mm', 'control_pressure_bar', 'system_pressure_bar',
          'fuel_kg_per_h', 'fuel_l_per_h', 'cylinder_flow_l_per_h', 'car', 'outcome', 'regime']


def cars():
    listed = parse(good('--list-cars', '--json'))
    holds(len(listed) >= 3, 'three cars at least')
    return listed


def comma_locale():
    """Environment with a locale whose decimal sign is a comma, made from the sources that Debian ships."""
    made = subprocess.run(['localedef', '-i', 'de_DE', '-f', 'UTF-8', path('de_DE.UTF-8')], check=False,
                          stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    if made.returncode > 1 or not os.path.isdir(path('de_DE.UTF-8')):
        raise Skip('no locale could be made')
    return {'LOCPATH': FOLDER.name, 'LC_ALL': 'de_DE.UTF-8', 'LANGUAGE': 'C'}


def test_every_key_is_there():
    got = mixture()
    equal([key for key in [*CONDITIONS, *VALUES] if key not in got], [])
    equal(got['outcome'], 'solved')


def test_usual_conditions_are_used_and_told():
    got = mixture()
    for key, value in CONDITIONS.items():
        near(got[key], value, 1e-12, key)


def test_every_shipped_car_gives_a_mixture():
    for car in cars():
        got = mixture('--car', car['car'])
        equal(got['car'], car['car'])
        equal(len(got['cylinder_flow_l_per_h']), car['cylinders'])
        holds(0.9 < got['lambda'] < 1.12, f'{car}: lambda {got["lambda"]}')


def test_conditions_given_are_used():
    words = ['--air', '42.5', '--coolant', '-7', '--vacuum', '312', '--altitude', '850', '--ambient', '4', '--voltage',
             '12.25', '--minutes', '1.5', '--humidity', '60', '--fuel', '31']
    got = mixture(*words)
    wanted = {'air_kg_per_h': 42.5, 'coolant_deg_c': -7, 'vacuum_mbar': 312, 'altitude_m': 850, 'ambient_deg_c': 4,
              'voltage_v': 12.25, 'minutes': 1.5, 'humidity_percent': 60, 'fuel_deg_c': 31}
    for key, value in wanted.items():
        near(got[key], value, 1e-12, key)


def test_each_condition_reaches_the_model():
    before = mixture('--all')['state']
    for option, value in (('air', '60'), ('coolant', '20'), ('vacuum', '50'), ('altitude', '2000'), ('ambient', '-10'),
                          ('humidity', '100'), ('fuel', '60'), ('voltage', '9')):
        after = mixture('--all', f'--{option}', value)['state']
        holds(before != after, f'--{option} changes nothing')
    cold = mixture('--coolant', '20')
    holds(mixture('--coolant', '20', '--minutes', '3')['control_pressure_bar'] > cold['control_pressure_bar'] + 0.2,
          'the heater raises the control pressure')


def test_units_behind_a_value_are_understood():
    equal(mixture('--air', '5 g/s', '--coolant', '68 °F', '--vacuum', '50 kPa'),
          mixture('--air', '18', '--coolant', '20', '--vacuum', '500'))
    equal(mixture('--air=18,5'), mixture('--air', '18.5'))


def test_without_air_there_is_no_lambda():
    got = mixture('--air', '0')
    equal((got['lambda'], got['air_fuel_ratio']), (None, None))
    holds('no-air' in got['regime'], got['regime'])
    holds('NaN' not in good('--mixture', '--air', '0'))


def test_without_pump_there_is_no_fuel():
    got = mixture('--voltage', '0')
    equal(got['lambda'], None)
    holds('no-fuel' in got['regime'], got['regime'])
    near(got['fuel_kg_per_h'], 0, 1e-12)


def test_more_air_than_can_pass_is_bad_input():
    # The smallest car, 5000 m up in the heat: its plate cannot pass this much at its buffer.
    words = ['--mixture', '--car', 'tarn-four', '--air', '1800', '--altitude', '5000', '--ambient', '60']
    result = call(*words, '--json')
    equal(result.status, 2)
    holds('--air' in result.err, result.err)
    got = parse(result.out)
    equal((got['outcome'], got['lambda'], got['plate_lift_mm']), ('too-much-air', None, None))
    equal(call(*words).status, 2)
    equal(call(*words, '--picture', path('none.png')).status, 2)
    holds(not os.path.exists(path('none.png')))


def test_cold_is_richer_and_load_is_richer():
    # Direction of the trade, common practice, no source.
    holds(mixture('--coolant', '20')['lambda'] < mixture('--coolant', '40')['lambda'] < mixture()['lambda'])


def test_altitude_alone_follows_the_density():
    # A variable-area meter with a constant drop measures the root of density (de Nevers, example 5.11: flow proportional
    # to density^-1/2). Same mass flow, same temperature: lambda falls as the root of the pressure ratio, 0.9418 at 1000 m
    # in the standard atmosphere (ISO 2533: 89874.56 Pa, from memory), as far as area and lift are proportional.
    ratio = mixture('--air', '100', '--altitude', '1000')['lambda'] / mixture('--air', '100')['lambda']
    near(ratio, math.sqrt(89874.56 / 101325), 0.03)


def test_text_and_json_say_the_same():
    text, got = good('--mixture', '--air', '77'), mixture('--air', '77')
    for value in (f'{got["lambda"]:.3f}', f'{got["plate_lift_mm"]:.2f}', f'{got["control_pressure_bar"]:.2f}',
                  f'{got["cylinder_flow_l_per_h"][0]:.3f}'):
        holds(value in text, f'{value} in {text}')


def test_numbers_are_written_with_all_their_digits():
    got = mixture('--all')
    near(got['fuel_kg_per_h'], got['state']['fuel_flow_kg_per_s'] * 3600, 1e-15)
    near(got['control_pressure_bar'], got['state']['control_pressure_pa'] / 1e5, 1e-15)
    holds(any(len(repr(value)) > 15 for value in got['state'].values() if isinstance(value, float)))


def check_equations(words):
    """The equations once more, from the printed values and parameters alone."""
    got = mixture('--all', *words)
    state, part = got['state'], got['parameters']
    sensor, fuel, engine = part['sensor'], part['distributor'], part['engine']
    density = state['fuel_density_kg_per_m3']
    # moments about the pivot
    plunger = state['control_pressure_pa'] * math.pi * fuel['plunger_diameter_m'] ** 2 / 4 + fuel['counter_spring_n']
    near(state['plunger_force_n'], plunger, 1e-9, 'plunger force')
    near(state['plate_force_n'] * sensor['plate_arm_m'],
         plunger * sensor['roller_arm_m'] + sensor['unbalance_n_m'], 1e-8, 'moments')
    near(state['plate_force_n'], state['plate_drop_pa'] * math.pi * sensor['plate_radius_m'] ** 2, 1e-9, 'plate force')
    # air past the plate
    near(sensor['plate_discharge'] * state['flow_area_m2']
         * math.sqrt(2 * state['air_density_kg_per_m3'] * state['plate_drop_pa']),
         state['air_flow_kg_per_s'], 1e-8, 'air')
    # slots, their valves and nozzles
    for number, cylinder in enumerate(got['cylinders']):
        near(cylinder['slot_discharge'] * fuel['slot_width_m'][number] * cylinder['slot_opening_m']
             * math.sqrt(2 * cylinder['slot_drop_pa'] / density), cylinder['flow_m3_per_s'], 1e-8, f'slot {number}')
        near(state['system_pressure_pa'] - cylinder['upper_pressure_pa'], cylinder['slot_drop_pa'], 1e-8)
        near(fuel['nozzle_opening_pa'][number]
             + fuel['nozzle_rate_pa_s_per_m3'][number] * cylinder['flow_m3_per_s'],
             cylinder['line_pressure_pa'], 1e-8, f'nozzle {number}')
        near(fuel['valve_seat_discharge'] * math.pi * fuel['valve_seat_diameter_m'] * cylinder['valve_opening_m']
             * math.sqrt(2 * (cylinder['upper_pressure_pa'] - cylinder['line_pressure_pa']) / density),
             cylinder['flow_m3_per_s'], 1e-7, f'valve {number}')
    # what the pump delivers and where it goes
    flows = sum(cylinder['flow_m3_per_s'] for cylinder in got['cylinders'])
    near(state['fuel_volume_flow_m3_per_s'], flows, 1e-9, 'sum of the cylinders')
    near(state['pump_flow_m3_per_s'], flows + state['control_flow_m3_per_s'] + state['relief_flow_m3_per_s'], 1e-8)
    near(state['fuel_flow_kg_per_s'], flows * density, 1e-9, 'fuel mass')
    # mixture
    ratio = (state['air_flow_kg_per_s'] + state['unmetered_air_kg_per_s']) / state['fuel_flow_kg_per_s']
    near(state['air_fuel_ratio'], ratio, 1e-9, 'air/fuel ratio')
    near(state['lambda'], ratio / state['stoichiometric'], 1e-9, 'lambda')
    near(engine['unmetered_area_m2'], 0, 0, 'healthy car')
    for key, value in got['residuals'].items():
        holds(abs(value) < 1e-8, f'residual {key} {value}')


def test_the_equations_hold_in_what_is_printed():
    for car in cars():
        for words in ([], ['--air', '60', '--coolant', '10', '--vacuum', '200'], ['--air', '120', '--altitude', '1500']):
            check_equations(['--car', car['car'], *words])


def test_json_has_points_where_the_locale_has_commas():
    env = comma_locale()
    equal(mixture('--all', env=env), mixture('--all'))
    lift = f'{mixture()["plate_lift_mm"]:.2f}'.replace('.', ',')
    holds(lift in good('--mixture', env=env), f'{lift} in the text')


def test_german_is_complete_and_used():
    env = {**comma_locale(), 'LANGUAGE': 'de'}
    text = good('--mixture', '--air', '0', env=env)
    for words in ('Hub der Stauscheibe', 'Steuerdruck', 'Es strömt keine Luft'):
        holds(words in text, f'{words} in {text}')
    equal(mixture('--air', '0', env=env), mixture('--air', '0'))
    told = subprocess.run(['msgfmt', '--check', '--statistics', '-o', '/dev/null', os.path.join(SOURCE, 'po/de.po')],
                          capture_output=True, text=True, check=False, env={'PATH': '/usr/bin:/bin'})
    equal(told.returncode, 0, told.stderr)
    holds('fuzzy' not in told.stderr and 'untranslated' not in told.stderr, told.stderr)


def test_a_hostile_environment_changes_nothing():
    for env in ({'HOME': '/nowhere', 'DISPLAY': ':99', 'DBUS_SESSION_BUS_ADDRESS': 'unix:path=/nowhere',
                 'XDG_DATA_DIRS': '/nowhere', 'GSETTINGS_BACKEND': 'dconf', 'GTK_THEME': 'Nowhere'},
                {'LC_ALL': 'xx_YY.ISO-8859-1'}, {'LANG': 'C', 'G_DEBUG': 'fatal-warnings'}):
        equal(mixture(env=env), mixture())


def test_nothing_is_written_beside():
    good('--mixture')
    equal([name for name in os.listdir(FOLDER.name) if name != 'de_DE.UTF-8'], [])


def test_without_display_and_options_a_mixture_is_printed():
    equal(good(), good('--mixture'))
    equal(good(env={'DISPLAY': ':12345'}), good('--mixture'))
    result = call('some.platelift-job')
    equal((result.status, result.out), (2, ''))
    holds('display' in result.err, result.err)


def test_cars_are_listed():
    text = good('--list-cars')
    for car in cars():
        holds(any(line.split()[:1] == [car['car']] and car['car_name'] in line for line in text.splitlines()), car)
    equal(sorted(car['cylinders'] for car in cars())[:3], [4, 6, 8])


def test_version():
    holds(good('--version').startswith('Platelift '))


def test_help_names_every_option_and_the_rule_of_the_air_temperature():
    text = good('--help')
    equal(text, good('-h'))
    for option in ('mixture', 'check', 'picture', 'car', 'json', 'all', 'list-cars', 'version', 'help', 'air', 'coolant',
                   'minutes', 'vacuum', 'altitude', 'ambient', 'humidity', 'fuel', 'voltage'):
        holds(f'--{option}' in text, option)
    holds('air temperature stays' in text)
    holds(max(len(line) for line in text.splitlines()) < 200, 'lines stay readable')


def test_the_manual_page_names_the_same_options():
    with open(os.path.join(SOURCE, 'data/platelift.1'), encoding='utf-8') as stream:
        page = stream.read().replace('\\-', '-')
    helped = set(re.findall(r'--[a-z-]+(?=[ =])', good('--help').split('\n\n')[2]))
    holds(len(helped) > 15, helped)
    equal(sorted(helped - set(re.findall(r'--[a-z][a-z-]*', page))), [])
    equal(sorted(set(re.findall(r'--[a-z][a-z-]*', page)) - helped), [])


def full(*words):
    with open('/dev/full', 'wb') as stream:
        return subprocess.run([PROGRAM, *words], env={}, stdout=stream, stderr=subprocess.PIPE, check=False)


def test_a_full_disk_is_told():
    for words in (['--mixture'], ['--mixture', '--json', '--all'], ['--help'], ['--version'], ['--list-cars']):
        done = full(*words)
        holds(done.returncode != 0, f'{words} exits 0 into a full disk')
        holds(b'standard output' in done.stderr, done.stderr)


def test_a_closed_output_is_told():
    done = subprocess.run(['/bin/sh', '-c', f'exec "{PROGRAM}" --mixture >&-'], env={}, stderr=subprocess.PIPE, check=False)
    holds(done.returncode != 0)
    holds(b'standard output' in done.stderr, done.stderr)


sys.exit(tap.run(sys.modules[__name__]))
