"""Tests written as functions, told as TAP: a function named test_... is one subtest; what it raises is its failure."""
import sys
import traceback


class Skip(Exception):
    """Raised by a test that cannot run here, with the reason."""


def run(module):
    tests = [(name, value) for name, value in vars(module).items() if name.startswith('test_') and callable(value)]
    number = failed = 0
    print('TAP version 13')
    print(f'1..{len(tests)}', flush=True)
    for name, test in tests:
        number += 1
        title = name[5:].replace('_', ' ')
        try:
            test()
            print(f'ok {number} {title}', flush=True)
        except Skip as reason:
            print(f'ok {number} {title} # SKIP {reason}', flush=True)
        except Exception:  # a failed test must not keep the others from running
            failed += 1
            print(f'not ok {number} {title}')
            for line in traceback.format_exc().splitlines():
                print('#', line)
            sys.stdout.flush()
    return 1 if failed else 0


def equal(got, wanted, what=''):
    if got != wanted:
        raise AssertionError(f'{what}: got {got!r}, wanted {wanted!r}')


def near(got, wanted, relative, what=''):
    if not abs(got - wanted) <= relative * max(abs(got), abs(wanted), 1e-300):
        raise AssertionError(f'{what}: got {got!r}, wanted {wanted!r} within {relative}')


def holds(condition, what=''):
    if not condition:
        raise AssertionError(what)
