"""Prints which part of the lines of services/ and storage/ the tests ran: line_coverage.py BUILD.

Reads the counts that programs of a build with ROWPROOF_COVERAGE left in BUILD/lines; exits with 1 if
they ran less than LEAST of all lines. Generated code and mains are not counted.
"""

import collections
import json
import os
import pathlib
import subprocess
import sys

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
LEAST = 90  # per cent


def programs(build):
    for path in sorted(build.iterdir()):
        if path.is_file() and path.stat().st_mode & 0o111:
            with open(path, "rb") as file:
                if file.read(4) == b"\x7fELF":
                    yield str(path)


def counted(build):
    """Lines and lines that were run, by file of ours."""
    counts = build / "lines" / "all.profdata"
    raw = [str(path) for path in sorted((build / "lines").glob("*.profraw"))]
    subprocess.run(["llvm-profdata-14", "merge", "-sparse", "-o", str(counts), *raw], check=True)
    first, *others = programs(build)
    command = ["llvm-cov-14", "export", "-summary-only", "-instr-profile", str(counts),
               "-compilation-dir", str(build), first]
    for other in others:
        command += ["-object", other]
    exported = json.loads(subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout)
    for file in exported["data"][0]["files"]:
        path = pathlib.Path(os.path.relpath(build / file["filename"], TOP))
        if path.parts[0] not in ("services", "storage"):
            continue
        lines = file["summary"]["lines"]
        yield path, lines["count"], lines["covered"]


def main(build):
    folders = collections.defaultdict(lambda: [0, 0])
    total = [0, 0]
    for path, count, covered in counted(pathlib.Path(build).resolve()):
        for sums in (folders[path.parent], total):
            sums[0] += count
            sums[1] += covered
    print("Lines that the tests run, in per cent:")
    for folder, (count, covered) in sorted(folders.items()):
        print("  %5.1f  %s (%d of %d)" % (100 * covered / max(count, 1), folder, covered, count))
    part = 100 * total[1] / total[0]
    print("  %5.1f  in all (%d of %d)" % (part, total[1], total[0]))
    if part < LEAST:
        sys.exit("The tests must run at least %d per cent of the lines (they ran %.1f)." % (
            LEAST, part))


if __name__ == "__main__":
    main(sys.argv[1])
