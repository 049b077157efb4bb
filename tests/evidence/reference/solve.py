#!/usr/bin/env python3
"""Independent results for the outside checks.

Each solvers/<topic>.py holds equations written from solvers/<topic>.md, never from the
TypeScript, and a function cases() -> dict of numbers, lists and dicts. This program calls them all
and stores what they give in <topic>.json beside this file (sorted keys, indent 1), which the checks then read: the
tests themselves need no Python.

    npm run evidence:solve                 solve everything anew and store it
    npm run evidence:solve -- --check      change nothing; exit 1 when a result has moved
    npm run evidence:solve -- heat cure    only these topics

Needs Python 3.9 or newer with numpy and scipy: apt install python3-scipy (numpy comes with it).
"""

import argparse
import importlib
import json
import math
import numbers
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
SOLVERS = HERE / "solvers"
# Far above what solvers of another version differ by at rtol 1e-9, far below any check's tolerance.
GREATEST_RELATIVE_CHANGE = 1e-7
# Below this a number is nought to its solver, and a relative change says nothing.
NOUGHT = 1e-30


def plain(value, path="cases"):
    """The same as JSON knows it: numpy's numbers and arrays become Python's; no NaN, no infinity."""
    if isinstance(value, dict):
        return {str(key): plain(inner, f"{path}.{key}") for key, inner in value.items()}
    if hasattr(value, "tolist"):
        value = value.tolist()
    if isinstance(value, (list, tuple)):
        return [plain(inner, f"{path}[{i}]") for i, inner in enumerate(value)]
    if isinstance(value, (str, bool)):
        return value
    if isinstance(value, numbers.Integral):
        return int(value)
    if isinstance(value, numbers.Real) and math.isfinite(value):
        return float(value)
    raise ValueError(f"{path} is {value!r}; accepted: finite numbers, texts, lists and dicts of them")


def greatest_change(old, new, path=""):
    """(relative change, where): infinite where the shape or a text has changed."""
    if isinstance(new, bool) or isinstance(new, str) or type(old) is bool:
        return (0.0 if old == new else math.inf, path)
    if isinstance(new, dict):
        if not isinstance(old, dict) or old.keys() != new.keys():
            return math.inf, path
        return worst(greatest_change(old[key], new[key], f"{path}.{key}") for key in new)
    if isinstance(new, list):
        if not isinstance(old, list) or len(old) != len(new):
            return math.inf, path
        return worst(greatest_change(a, b, f"{path}[{i}]") for i, (a, b) in enumerate(zip(old, new)))
    if not isinstance(old, numbers.Real):
        return math.inf, path
    size = max(abs(old), abs(new))
    return (0.0 if size < NOUGHT else abs(new - old) / size, path)


def worst(changes):
    return max(changes, key=lambda change: change[0], default=(0.0, ""))


def solved(topic):
    return plain(importlib.import_module(topic).cases())


def stored(path):
    return json.loads(path.read_text(encoding="utf-8")) if path.exists() else None


def treat(topic, check):
    """Solves one topic, tells how it has moved, stores it unless only checking; True when it stands."""
    path = HERE / f"{topic}.json"
    new = solved(topic)
    old = stored(path)
    if old is None:
        print(f"{topic}: {'not stored' if check else 'new'}")
        stands = False
    else:
        change, where = greatest_change(old, new)
        stands = change <= GREATEST_RELATIVE_CHANGE
        print(f"{topic}: largest relative change {change:.1e}{f' at {where[1:]}' if change else ''}")
    if not check:
        path.write_text(json.dumps(new, sort_keys=True, indent=1) + "\n", encoding="utf-8")
    return stands


def main():
    sys.path.insert(0, str(SOLVERS))
    # Nothing but sources lies in that folder.
    sys.dont_write_bytecode = True
    topics = sorted(path.stem for path in SOLVERS.glob("*.py"))
    parser = argparse.ArgumentParser(description="Solves the references of the outside checks anew.")
    parser.add_argument("--check", action="store_true", help="store nothing; exit 1 when a result has moved")
    parser.add_argument("topic", nargs="*", help=f"one of: {', '.join(topics)}")
    asked = parser.parse_args()
    unknown = [name for name in asked.topic if name not in topics]
    if unknown:
        parser.error(f"no such topic: {', '.join(unknown)}; there are: {', '.join(topics)}")
    stand = [treat(topic, asked.check) for topic in asked.topic or topics]
    return 1 if asked.check and not all(stand) else 0


if __name__ == "__main__":
    try:
        sys.exit(main())
    except ModuleNotFoundError as missing:
        sys.exit(f"{missing}. Install with: apt install python3-scipy")
