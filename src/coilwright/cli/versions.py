"""A job's earlier versions: listed, and put back."""

from __future__ import annotations

import argparse
import sys

from coilwright.cli.problems import Problem


def versions(given: argparse.Namespace) -> int:
    """List the earlier versions of a job, or put one of them in its place."""
    from coilwright.cli.finding import find_path
    from coilwright.cli.kept import kept
    from coilwright.cli.lists import columns
    from coilwright.store.files import Seen

    store = kept()
    path = find_path(given.job)
    if path.is_dir():
        raise Problem(f"{path} is a folder; a file is wanted.")
    seen = Seen(store.stamp(path))
    earlier = store.versions(path)
    if given.restore is None:
        if not earlier:
            print(f"No earlier version of {path} is kept yet.", file=sys.stderr)
            return 0
        rows = [(str(number), f"{one.changed:%Y-%m-%d %H:%M:%S}", one.title, one.state)
                for number, one in enumerate(earlier, 1)]
        print(columns(("version", "saved", "job", "state"), rows), end="")
        return 0
    if not 1 <= given.restore <= len(earlier):
        there = f"there are 1 to {len(earlier)}" if earlier else "none is kept yet"
        raise Problem(f"There is no version {given.restore} of {path}; {there}.")
    one = earlier[given.restore - 1]
    job = store.bring_back(path, one.path, seen)
    print(f"“{job.title}” is as it was saved at {one.changed:%Y-%m-%d %H:%M:%S}: {path}",
          file=sys.stderr)
    return 0
