"""All benchmarks one after another, or those that are named."""

from __future__ import annotations

import argparse

from tests.benchmarks import page, poses, search, work

ALL = {"poses": poses.main, "work": work.main, "search": search.main, "page": page.main}


def main() -> None:
    """Run the benchmarks asked for."""
    parser = argparse.ArgumentParser(prog="python tests/benchmarks", description=__doc__)
    parser.add_argument("which", nargs="*", metavar="WHICH", help=f"of {', '.join(ALL)}")
    for name in parser.parse_args().which or ALL:
        if name not in ALL:
            parser.error(f"there is no benchmark {name}; there are {', '.join(ALL)}")
        print(f"\n{name}\n{'-' * len(name)}", flush=True)
        ALL[name]()


if __name__ == "__main__":
    main()
