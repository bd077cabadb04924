"""--fault and --list-faults of the built program."""
import sys

import tap
from program import call, good, mixture, parse
from tap import equal, holds


def faults():
    return parse(good('--list-faults', '--json'))


def refused(word, *options):
    result = call(*options)
    equal((result.status, result.out), (2, ''), ' '.join(options))
    holds('--fault' in result.err and word in result.err, result.err)


def test_the_list_names_every_fault_once():
    listed = faults()
    keys = [fault['fault'] for fault in listed]
    equal(len(set(keys)), len(keys))
    holds(len(keys) >= 45, f'{len(keys)} faults')
    for fault in listed:
        holds(all(fault[key] for key in ('fault_name', 'system', 'what', 'repair', 'parameters')), fault)
    lines = good('--list-faults').splitlines()
    equal([line.split()[0] for line in lines], keys)


def test_a_fault_changes_the_mixture():
    healthy, lean = mixture(), mixture('--fault', 'unmetered-air')
    equal((healthy['faults'], lean['faults']), ([], [{'fault': 'unmetered-air', 'severity': 1}]))
    holds(lean['lambda'] > 1.2 * healthy['lambda'], 'air that was not metered')
    holds(mixture('--fault', 'mixture-screw-rich=0.5')['lambda'] < healthy['lambda'])


def test_severity_0_is_the_healthy_car():
    healthy = mixture('--all')
    for fault in faults():
        got = mixture('--all', '--fault', fault['fault'] + '=0')
        got['faults'] = []
        equal(got, healthy, fault['fault'])


def test_several_faults_in_any_order():
    one = mixture('--fault', 'unmetered-air=0.3, mixture-screw-rich=0.4', '--fault', 'slot-gummed=0.5@3', '--all')
    other = mixture('--all', '--fault', 'slot-gummed=0.5@3', '--fault', 'mixture-screw-rich=0.4,unmetered-air=0.3')
    one['faults'].sort(key=str)
    other['faults'].sort(key=str)
    equal(one, other)
    equal(len(one['faults']), 3)


def test_a_cylinder_can_be_named():
    for number in (1, 4, 6):
        flow = mixture('--car', 'hollin-six', '--fault', f'slot-narrow@{number}')['cylinder_flow_l_per_h']
        equal(min(range(6), key=flow.__getitem__), number - 1)
    both = mixture('--car', 'hollin-six', '--fault', 'slot-narrow@2,slot-narrow=0.5@5')['cylinder_flow_l_per_h']
    holds(both[1] < both[4] < both[0], both)


def test_the_text_tells_the_faults():
    text = good('--mixture', '--car', 'hollin-six', '--fault', 'slot-narrow=0.25@2,pump-worn')
    holds('slot' in text and 'cylinder 2' in text and '25' in text and 'Fuel pump worn' in text, text)


def test_what_cannot_be_is_refused():
    refused('pump-worn', '--mixture', '--fault', 'pump-wrn')
    refused('zzz', '--mixture', '--fault', 'zzz')
    for severity in ('', '1.5', '-0.1', 'nan', 'much', '0x1', '1e999'):
        refused('severity', '--mixture', '--fault', f'pump-worn={severity}')
    refused('“7”', '--mixture', '--fault', 'pump-worn=0,7')
    for cylinder in ('0', '9', '-1', 'x', '1.5', ''):
        refused('cylinder', '--mixture', '--fault', f'slot-narrow@{cylinder}')
    refused('4 cylinders', '--mixture', '--car', 'tarn-four', '--fault', 'slot-narrow@5')
    refused('single cylinder', '--mixture', '--fault', 'pump-worn@2')
    refused('twice', '--mixture', '--fault', 'pump-worn', '--fault', 'pump-worn=0.2')
    refused('empty', '--mixture', '--fault', '')
    refused('“”', '--mixture', '--fault', 'pump-worn,')
    refused('16', '--mixture', '--fault', ','.join(fault['fault'] for fault in faults()[:17]))
    refused('goes with', '--check', 'x', '--fault', 'pump-worn')
    refused('goes with', '--fault', 'pump-worn')


def test_lists_go_alone():
    for words in (['--list-faults', '--mixture'], ['--list-faults', '--list-cars'], ['--list-faults=1']):
        equal(call(*words).status, 2, ' '.join(words))


sys.exit(tap.run(sys.modules[__name__]))
