"""`python tests`: set up what is missing and run all tests; arguments go on to pytest."""

import os
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
sys.path.insert(0, os.path.join(ROOT, "workbook"))

import setting_up  # noqa: E402

# the notebooks are run as well, in the environment made for the tests
NOTEBOOKS = ["--nbval-lax", "--nbval-current-env"]


def _file(one):
    return one.split("::")[0]


def main(arguments):
    """Run pytest on everything, or on what the arguments name."""
    os.chdir(ROOT)
    folders = ("tests", "workbook")
    # every processor works, a file of tests at a time
    at_once = [] if "-n" in arguments else ["-n", str(min(4, os.cpu_count() or 1))]
    named = [one for one in arguments if one.startswith(folders) and os.path.exists(_file(one))]
    setting_up.run(
        "pytest",
        NOTEBOOKS
        + list(arguments)
        + ([] if named else [*at_once, "--dist", "loadfile", "tests", "workbook"]),
        extras=("test",),
    )


if __name__ == "__main__":
    main(sys.argv[1:])
