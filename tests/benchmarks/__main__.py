"""`python tests/benchmarks`: set up what is missing and print ratios and times; asserts nothing."""

import os
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
sys.path.insert(0, os.path.join(ROOT, "workbook"))

import setting_up  # noqa: E402

if __name__ == "__main__":
    os.chdir(ROOT)
    setting_up.run("tests.benchmarks.measure", sys.argv[1:], extras=("test",))
