"""The calibration study as a program: keys, reproducible from its seed, bad options. TAP."""
import json
import pathlib
import subprocess
import sys
import tempfile

program = sys.argv[1]
KEYS = ["top1_all", "top3_all", "top1_eight", "ece", "coverage90", "claims90_right", "healthy_false_alarm",
        "minutes_ratio_cheapest", "cases"]
SMALL = ["--cases", "24", "--types", "2", "--paths", "2"]


def run(*options):
    return subprocess.run([program, *options], capture_output=True, text=True)


def keys():
    data = json.loads(run("--json", *SMALL).stdout)
    return all(isinstance(data[key], (int, float)) for key in KEYS) and data["cases"] == 24 \
        and all(0 <= data[key] <= 1 for key in KEYS[:7]) and data["simulated"] is True


def reproducible():
    first, again, other = (run("--json", *SMALL, "--seed", seed).stdout for seed in ("3", "3", "4"))
    return first == again != other


def table_and_diagram():
    with tempfile.TemporaryDirectory() as folder:
        picture = pathlib.Path(folder) / "reliability.png"
        done = run(*SMALL, "--diagram", str(picture))
        return done.returncode == 0 and "not figures from cars" in done.stdout \
            and picture.read_bytes().startswith(b"\x89PNG")


def bad_options():
    return all(run(*words).returncode == 2 and run(*words).stderr.startswith("calibration: ")
               for words in (["--cases", "1"], ["--types", "0"], ["--seed", "-1"], ["--cases", "x"], ["--nonsense"], ["x"]))


def unwritable():
    done = run(*SMALL, "--diagram", "/nowhere/at/all.png")
    return done.returncode == 1 and "/nowhere/at/all.png" in done.stderr


checks = [keys, reproducible, table_and_diagram, bad_options, unwritable]
print(f"TAP version 13\n1..{len(checks)}")
for number, check in enumerate(checks, 1):
    try:
        good = check()
    except Exception as problem:
        good = False
        print(f"# {problem!r}")
    print(f"{'' if good else 'not '}ok {number} {check.__name__}", flush=True)
