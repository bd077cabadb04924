"""Every way to get the command line wrong: exit 2, nothing on standard output, the option on standard error."""
import sys

import tap
from program import call, path, write
from tap import equal, holds

CONDITIONS = ['air', 'coolant', 'minutes', 'vacuum', 'altitude', 'ambient', 'humidity', 'fuel', 'voltage']
NOT_NUMBERS = ['nan', 'NaN', '-nan', 'inf', '-inf', 'infinity', '0x10', '0X1p3', '1e', '1e999', '--', '', ' ', 'x', '12x3',
               '1,234.5', '1.2.3', '1 2', '٣', '²', '9' * 65, '1_000', '+-3', '1e+', "18'", '18;', '\t']
BEYOND = {'air': ['-0.001', '1800.1', '1e9'], 'coolant': ['-40.1', '130.1'], 'minutes': ['-1', '1440.1'],
          'vacuum': ['-1', '950.1'], 'altitude': ['-401', '5001'], 'ambient': ['-40.1', '60.1'],
          'humidity': ['-1', '100.1'], 'fuel': ['-40.1', '90.1'], 'voltage': ['-0.1', '30.1']}
WRONG_UNITS = {'air': ['18 bar', '18 l/h', '18 furlong'], 'coolant': ['80 K', '80 kg/h'], 'minutes': ['3 V', '3 m'],
               'vacuum': ['500 °C', '500 mm'], 'altitude': ['100 s', '100 mbar'], 'ambient': ['20 bar'],
               'humidity': ['50 °C'], 'fuel': ['20 l'], 'voltage': ['12 A', '12 volts per metre']}


def refused(option, *words):
    result = call(*words)
    equal((result.status, result.out), (2, ''), words)
    holds(result.err.startswith('platelift: '), result.err)
    holds(option in result.err, f'{option} is not named by: {result.err}')
    holds(result.err.endswith('\n') and 'GLib' not in result.err and '**' not in result.err, result.err)


def test_values_that_are_no_numbers():
    for condition in CONDITIONS:
        for value in NOT_NUMBERS if condition == 'air' else NOT_NUMBERS[:1] + NOT_NUMBERS[6:7] + ['', 'x']:
            refused(f'--{condition}', '--mixture', f'--{condition}={value}')


def test_bytes_that_are_no_text():
    refused('--air', '--mixture', b'--air=18\xff')


def test_values_out_of_range():
    for condition, values in BEYOND.items():
        for value in values:
            refused(f'--{condition}', '--mixture', f'--{condition}', value)


def test_limits_themselves_are_possible():
    for condition, least, most in (('coolant', '-40', '130'), ('ambient', '-40', '60'), ('humidity', '0', '100'),
                                   ('minutes', '0', '1440'), ('vacuum', '0', '950'), ('altitude', '-400', '5000'),
                                   ('voltage', '0', '30'), ('fuel', '-40', '90'), ('air', '0', '300')):
        for value in (least, most):
            equal(call('--mixture', f'--{condition}', value).status, 0, f'{condition} {value}')


def test_units_that_do_not_fit():
    for condition, values in WRONG_UNITS.items():
        for value in values:
            refused(f'--{condition}', '--mixture', f'--{condition}', value)


def test_options_given_twice():
    for condition in CONDITIONS:
        refused(f'--{condition}', '--mixture', f'--{condition}', '20', f'--{condition}', '20')
    for option in ('--mixture', '--json', '--all'):
        refused(option, '--mixture', '--json', '--all', option)
    refused('--car', '--mixture', '--car', 'x', '--car', 'x')
    refused('--picture', '--picture', 'a.png', '--picture', 'b.png')
    refused('--check', '--check', 'a', '--check', 'b')
    refused('--help', '--help', '--help')


def test_missing_values():
    for option in (*CONDITIONS, 'car', 'picture', 'check'):
        refused(f'--{option}', '--mixture' if option != 'check' else '--json', f'--{option}')
    for option in ('car', 'picture', 'check'):
        refused(f'--{option}', f'--{option}=')


def test_a_value_that_is_an_option():
    refused('--air', '--mixture', '--air', '--json')


def test_unknown_options():
    for option in ('--mixtures', '--mix', '--gapplication-service', '--Air', '--air-flow', '--nan', '--help-all', '-x', '-j'):
        refused(option, option)
        refused(option, '--mixture', option)


def test_flags_that_are_given_a_value():
    for option in ('--mixture', '--json', '--version', '--list-cars'):
        refused(option, f'{option}=yes')


def test_options_that_do_not_go_together():
    refused('--check', '--mixture', '--check', 'x')
    refused('--picture', '--picture', 'x.png', '--check', 'y')
    refused('--all', '--all')
    refused('--all', '--check', 'x', '--all')
    refused('--json', '--json')
    refused('--json', '--picture', 'x.png', '--json')
    refused('--car', '--car', 'x')
    refused('--car', '--list-cars', '--car', 'x')
    refused('--list-cars', '--list-cars', '--mixture')
    for condition in CONDITIONS:
        refused(f'--{condition}', f'--{condition}', '20')
        refused(f'--{condition}', '--check', 'x', f'--{condition}', '20')


def test_a_word_too_many():
    refused('extra', '--mixture', 'extra')
    refused('extra', '--list-cars', 'extra')
    refused('extra', '--check', 'x', 'extra')


def test_cars_that_are_none():
    refused('--car', '--mixture', '--car', 'no-such-car')
    refused('--car', '--mixture', '--car', path('missing.platelift-car'))
    refused('--car', '--mixture', '--car', '/')
    refused('--car', '--mixture', '--car', write('empty.platelift-car', ''))
    refused('--car', '--mixture', '--car', write('deep.platelift-car', '[' * 100000))
    refused('--car', '--mixture', '--car', write('number.platelift-car', '{"version": 1e999}'))
    refused('--car', '--mixture', '--car', write('bytes.platelift-car', b'\xff\xfe{}'))


sys.exit(tap.run(sys.modules[__name__]))
