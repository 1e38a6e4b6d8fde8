"""`python -m weighshaft` is the same as the command `weighshaft`."""

import sys

from .cli import main

if __name__ == "__main__":
    sys.exit(main())
