"""Search for new cases with atheris, which is no dependency: `pip install atheris` beforehand.

    fuzz_run.py TARGET [CORPUS] [-max_total_time=300 ...]

The seeds go in; a case that is found is written to the working directory. Keep it as a file in
`seeds/TARGET`: `test_fuzz_seeds.py` runs all of them.
"""

import sys

import atheris

with atheris.instrument_imports(include=["areafit", "ruamel"]):
    from fuzz_targets import SEEDS, TARGETS


def main() -> None:
    """Fuzz the target that the first argument names."""
    name = sys.argv.pop(1)
    atheris.Setup([*sys.argv, str(SEEDS / name)], TARGETS[name])
    atheris.Fuzz()


if __name__ == "__main__":
    main()
