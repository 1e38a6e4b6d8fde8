"""A kernel of the page: IPython's own, but silent on the terminal that the server runs in."""

from __future__ import annotations

import os
import sys


def main() -> None:
    """Run a kernel; with WEIGHSHAFT_DEBUG set, what it complains of is shown."""
    if not os.environ.get("WEIGHSHAFT_DEBUG"):
        nowhere = os.open(os.devnull, os.O_RDWR)
        for stream in (1, 2):
            os.dup2(nowhere, stream)
    # the folder of the notebooks is no place to import from
    sys.path[:] = [one for one in sys.path if one not in ("", os.getcwd())]
    from ipykernel import kernelapp

    kernelapp.launch_new_instance()


if __name__ == "__main__":
    main()
