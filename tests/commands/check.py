"""--check of the built program: job documents and CSV files as a technician's, right and wrong."""
import json
import os
import subprocess
import sys

import tap
from program import PROGRAM, SOURCE, call, good, parse, path, write
from tap import equal, holds, near

CAR = 'hollin-six'
REGULATOR = {'temperature': {'value': '20', 'unit': '°C'}, 'vacuum': {'value': '0', 'unit': 'mbar'}, 'vacuum_source': 'none'}


def job(*readings, **more):
    return {'format': 'platelift-job', 'version': 1, 'car': CAR, 'readings': list(readings), **more}


def reading(kind, value, unit, **more):
    return {'kind': kind, 'value': value, 'unit': unit, **more}


def checked(document, status, name='visit.platelift-job'):
    result = call('--check', write(name, json.dumps(document)), '--json')
    equal((result.status, result.err), (status, ''), document)
    return parse(result.out)


def refused(place, name, *words):
    result = call('--check', name, *words)
    equal((result.status, result.out), (2, ''), name)
    for part in place if isinstance(place, tuple) else (place,):
        holds(part in result.err, f'{part} is not named by: {result.err}')
    return result.err



def test_what_the_model_expects_is_in():
    for kind in ('system-pressure', 'control-pressure-cold', 'control-pressure-warm', 'control-pressure-without-vacuum'):
        conditions = {**REGULATOR, 'minutes': {'value': '10', 'unit': 'min'}} if kind != 'system-pressure' else {}
        model = checked(job(reading(kind, '0.9', 'bar', conditions=conditions)), 1)['readings'][0]['expected_bar']
        entry = checked(job(reading(kind, f'{model:.3f}', 'bar', conditions=conditions)), 0)['readings'][0]
        equal(entry['verdict'], 'in', kind)
        near(entry['value_bar'], model, 1e-3, kind)
        holds(entry['low_bar'] < model < entry['high_bar'], entry)
        holds(entry['band_source'], 'the band says where it comes from')


def test_cold_pressure_follows_temperature_and_vacuum():
    # The unit of reference: warmer regulator, more pressure; vacuum on the load stage, more pressure. Common practice, no
    # source.
    def at(temperature, vacuum):
        conditions = {'temperature': {'value': temperature, 'unit': '°C'}, 'vacuum': {'value': vacuum, 'unit': 'mbar'},
                      'vacuum_source': 'hand-pump'}
        document = job(reading('control-pressure-cold', '0.5', 'bar', conditions=conditions))
        return parse(call('--check', write('cold.json', json.dumps(document)), '--json').out)['readings'][0]['expected_bar']
    holds(at('10', '0') < at('20', '0') < at('30', '0'))
    holds(at('20', '0') < at('20', '500'))


def test_out_is_exit_1_and_names_the_side():
    got = checked(job(reading('system-pressure', '4.0', 'bar'), reading('rest-height', '2.5', 'mm')), 1)
    equal([entry['verdict'] for entry in got['readings']], ['out-low', 'out-high'])
    equal(got['verdict'], 'out')


def test_near_a_limit_is_undecided_and_exit_0():
    limit = checked(job(reading('system-pressure', '4.0', 'bar')), 1)['readings'][0]['low_bar']
    got = checked(job(reading('system-pressure', f'{limit:.3f}', 'bar')), 0)
    equal(got['readings'][0]['verdict'], 'undecided')
    # JCGM 106:2012, guard band of 1.64 standard uncertainties: a little inside it, and a little outside
    sure = {'value': '0.01', 'unit': 'bar', 'form': 'standard'}
    for offset, verdict, status in ((0.0150, 'undecided', 0), (0.0180, 'in', 0), (-0.0150, 'undecided', 0),
                                    (-0.0180, 'out-low', 1)):
        got = checked(job(reading('system-pressure', f'{limit + offset:.6f}', 'bar', uncertainty=sure)), status)
        equal(got['readings'][0]['verdict'], verdict, offset)


def test_units_of_the_gauge_make_no_difference():
    bar = checked(job(reading('system-pressure', '4.8', 'bar')), 0)['readings'][0]
    kpa = checked(job(reading('system-pressure', '480', 'kPa')), 0)['readings'][0]
    psi = checked(job(reading('system-pressure', '69.618', 'psi')), 0)['readings'][0]  # 4.8 bar / 6894.757 Pa, NIST SP 811
    near(bar['value_bar'], kpa['value_bar'], 1e-12)
    near(bar['value_bar'], psi['value_bar'], 1e-5)
    equal(psi['typed'], '69.618 psi')


def test_each_cylinder_is_judged_against_their_mean():
    values = {'kind': 'cylinders-full', 'values': ['100', '101', '99', '100', '80', '100'], 'unit': 'cm³/min'}
    got = checked(job(values), 1)
    equal(len(got['readings']), 6)
    equal([entry['cylinder'] for entry in got['readings']], [1, 2, 3, 4, 5, 6])
    equal(got['readings'][4]['verdict'], 'out-low')
    mean = 580 / 6
    near(got['readings'][4]['value_percent'], (80 / mean - 1) * 100, 1e-9)


def test_text_says_the_same_as_json():
    document = job(reading('system-pressure', '4.0', 'bar'), reading('rest-height', '0.1', 'mm'))
    result = call('--check', write('visit.json', json.dumps(document)))
    equal((result.status, result.err), (1, ''))
    holds('out, low' in result.out and 'Hollin' in result.out, result.out)
    entry = checked(document, 1)['readings'][0]
    holds(f'{entry["expected_bar"]:.2f}' in result.out, result.out)
    holds('4.00' in result.out or '4.0' in result.out)
    holds('manufacturer' in result.out, 'the caution stands where work is described')


def test_no_readings_are_fine_but_said():
    holds('no readings' in good('--check', write('none.json', json.dumps(job()))))


HEATER_DEAD = [reading('control-pressure-cold', '1.18', 'bar', conditions={**REGULATOR, 'temperature': {'value': '16', 'unit': '°C'}}),
               reading('system-pressure', '4.95', 'bar'),
               reading('control-pressure-warm', '1.2', 'bar', conditions={
                   'temperature': {'value': '16', 'unit': '°C'}, 'vacuum': {'value': '0', 'unit': 'mbar'},
                   'minutes': {'value': '10', 'unit': 'min'}})]


def test_causes_name_what_the_model_moves():
    # A control pressure that stays at its cold value for ten minutes: no heat. Common practice, no source.
    causes = checked(job(*HEATER_DEAD), 1)['causes']
    faults = {entry['fault']: entry['probability'] for entry in causes['faults']}
    holds(faults['heater-open'] + faults['heater-supply-lost'] > 0.8, causes)
    holds(causes['sets'][0]['faults'][0]['fault'] in ('heater-open', 'heater-supply-lost'), causes)
    near(sum(entry['probability'] for entry in causes['sets']), 1, 0.1)
    holds(causes['healthy'] < 0.01 and causes['faults_looked_at'] < causes['faults_in_catalogue'], causes)
    holds('not on cars' in causes['basis'], causes)


def test_causes_of_a_healthy_car_and_next_reading():
    causes = checked(job(reading('system-pressure', '4.97', 'bar')), 0)['causes']
    equal(causes['sets'][0]['kind'], 'healthy')
    equal(causes['stop'], 'not-yet')
    equal(causes['next'][0]['reading'], 'control-pressure-cold', 'what needs a cold engine comes first')
    holds(all(entry['reading'] != 'system-pressure' for entry in causes['next']), causes)
    text = good('--check', write('next.json', json.dumps(job(reading('system-pressure', '4.97', 'bar')))))
    for words in ('Causes by these readings', 'Next reading: Control pressure, cold', 'class B extinguisher',
                  'not on cars', 'faults in the catalogue'):
        holds(words in text, f'{words} in {text}')


def test_a_misread_gauge_is_doubted():
    entry = reading('system-pressure', '4.95', 'bar')
    vented = reading('control-pressure-without-vacuum', '4.4', 'bar', conditions={
        'temperature': {'value': '80', 'unit': '°C'}, 'minutes': {'value': '10', 'unit': 'min'}})
    warm = reading('control-pressure-warm', '3.75', 'bar', conditions={
        'temperature': {'value': '80', 'unit': '°C'}, 'vacuum': {'value': '500', 'unit': 'mbar'},
        'minutes': {'value': '10', 'unit': 'min'}})
    causes = checked(job(entry, warm, vented), 1)['causes']
    doubts = {entry['reading']: entry['wrong'] for entry in causes['readings']}
    holds(doubts['control-pressure-without-vacuum'] > 0.5 and doubts['system-pressure'] < 0.1, causes)


def test_no_readings_no_causes():
    holds('causes' not in checked(job(), 0))


def test_every_shipped_job_can_be_checked():
    folder = os.path.join(SOURCE, 'data/jobs')
    names = sorted(os.listdir(folder)) if os.path.isdir(folder) else []
    for name in names:
        words = ['--car', '-'.join(name.split('-')[:2])] if name.endswith('.csv') else []  # named after its car
        result = call('--check', os.path.join(folder, name), '--json', *words)
        holds(result.status in (0, 1) and result.err == '', f'{name}: {result.status} {result.err}')
        parse(result.out)


CSV = 'reading,value,unit,temperature [°C],vacuum [mbar],vacuum_source\n'


def test_csv_with_a_car():
    name = write('readings.csv', CSV + 'system-pressure,4.8,bar,,,\ncontrol-pressure-cold,1.3,bar,20,0,none\n')
    got = parse(good('--check', name, '--car', CAR, '--json'))
    equal(got['car'], CAR)
    equal([entry['reading'] for entry in got['readings']], ['system-pressure', 'control-pressure-cold'])


def test_csv_with_semicolons_and_decimal_commas():
    name = write('komma.csv', '\ufeff' + CSV.replace(',', ';') + 'system-pressure;4,8;bar;;;\r\n')
    got = parse(good('--check', name, '--car', CAR, '--json'))
    near(got['readings'][0]['value_bar'], 4.8, 1e-12)


def test_csv_without_a_car_is_refused():
    refused('--car', write('readings.csv', CSV + 'system-pressure,4.8,bar,,,\n'))


def test_csv_problems_name_their_lines():
    name = write('bad.csv', CSV + 'system-pressure,4.8,bar,,,\nsystem-pressure,four,bar,,,\nno-such,1,bar,,,\n'
                 'system-pressure,4.8,,,,\nsystem-pressure,4.8,kg/h,,,\n')
    refused(('line 3', 'line 4', 'line 5', 'line 6', 'bad.csv'), name, '--car', CAR)


def test_job_problems_name_their_places():
    good_one = reading('system-pressure', '4.8', 'bar')
    for document, place in (
            (job(good_one, reading('system-pressure', '4.8', 'furlong')), '/readings/1/unit'),
            (job(good_one, {'kind': 'system-pressure', 'value': '4.8'}), '/readings/1/unit'),
            (job(reading('system-pressure', 'four', 'bar')), '/readings/0/value'),
            (job(reading('system-pressure', '4.8', '°C')), '/readings/0/unit'),
            (job(reading('no-such-reading', '4.8', 'bar')), '/readings/0/kind'),
            (job({**good_one, 'pressure': 1}), '/readings/0/pressure'),
            (job(good_one, surprise=1), '/surprise'),
            (job(good_one, car='no-such-car'), '/car'),
            (job(reading('system-pressure', '1e999', 'bar')), '/readings/0/value')):
        refused(place, write('bad.json', json.dumps(document)))


def test_all_problems_are_told_not_only_the_first():
    document = job(reading('system-pressure', 'four', 'bar'), reading('rest-height', '1', 'bar'))
    refused(('/readings/0', '/readings/1'), write('bad.json', json.dumps(document)))


def test_files_that_are_no_jobs():
    for name, content in (('cut.json', '{"format": "platelift-job"'), ('deep.json', '[' * 100000), ('two.json', '{}{}'),
                          ('twice.json', '{"version": 1, "version": 1}'), ('nan.json', '{"version": NaN}'),
                          ('bytes.json', b'{"notes": "\xff"}'), ('array.json', '[]'), ('nul.json', b'{"a": "\0"}')):
        refused(name, write(name, content))
    refused('empty', write('empty.csv', ''), '--car', CAR)
    refused('bytes', write('bytes.csv', b'reading,value,unit\nsystem-pressure,\xff,bar\n'), '--car', CAR)


def test_files_that_cannot_be_read():
    refused('missing.json', path('missing.json'))
    refused('/', '/')
    with open(path('large.json'), 'wb') as stream:
        stream.truncate(1 << 31)
    refused('large.json', path('large.json'))
    os.remove(path('large.json'))


def test_a_car_beside_a_job_that_has_one_is_refused():
    refused('--car', write('visit.json', json.dumps(job(reading('system-pressure', '4.8', 'bar')))), '--car', CAR)


def test_a_full_disk_is_told():
    name = write('visit.json', json.dumps(job(reading('system-pressure', '4.8', 'bar'))))
    with open('/dev/full', 'wb') as stream:
        done = subprocess.run([PROGRAM, '--check', name], env={}, stdout=stream, stderr=subprocess.PIPE, check=False)
    equal(done.returncode, 2)
    holds(b'standard output' in done.stderr, done.stderr)


sys.exit(tap.run(sys.modules[__name__]))
