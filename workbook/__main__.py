"""`python workbook`: set up what is missing and open the workbook in the browser."""

import os
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import setting_up

if __name__ == "__main__":
    setting_up.run("weighshaft", sys.argv[1:])
