#!/usr/bin/env python3
"""Reads every include and fails on an arrow between layers that DEVELOPERS.md does not draw, and on
headers that are not as it says."""

import pathlib
import re
import subprocess
import sys

TOP = pathlib.Path(__file__).resolve().parent.parent
# Leaf libraries: every layer may use them, and they use nothing.
LEAVES = ["services/text", "services/quantities", "services/addresses"]
# A folder before the one that holds it: what the client hosts sees nothing that needs storage.
LAYERS = LEAVES + [
          "services/domain", "services/images", "services/drawing", "services/usecases/charts",
          "services/usecases", "services/rpc/charts", "services/rpc/converters/charts",
          "services/rpc", "services/server", "services/client", "storage"]
ALLOWED = {
    "services/text": [],
    "services/quantities": [],
    "services/addresses": [],
    "services/domain": [],
    "services/images": ["services/domain"],
    "services/drawing": ["services/domain"],
    "storage": ["services/domain"],
    "services/usecases/charts": ["services/domain", "services/images", "services/drawing",
                                 "services/usecases/request_context.h"],
    "services/usecases": ["services/domain", "services/images", "services/drawing",
                          "services/usecases/charts", "storage"],
    # Its own shared parts are named one by one: the rest of services/rpc needs use cases with storage.
    "services/rpc/charts": ["services/domain", "services/usecases/charts",
                            "services/usecases/request_context.h", "services/rpc/dispatcher.h",
                            "services/rpc/service.h", "services/rpc/converters/charts",
                            "rowproof/v1"],
    "services/rpc/converters/charts": ["services/domain", "services/usecases/charts",
                                       "services/rpc/converters/enum_from_proto.h", "rowproof/v1"],
    "services/rpc": ["services/domain", "services/usecases/charts", "services/usecases",
                     "services/rpc/charts", "services/rpc/converters/charts", "rowproof/v1",
                     "google/rpc"],
    "services/server": ["services/domain", "services/usecases/charts", "services/usecases",
                        "services/rpc/charts", "services/rpc", "storage", "rowproof/v1"],
    "services/client": ["rowproof/v1", "google/rpc"],
}
# Single headers that may be used against the rule, each with its reason in a DECISIONS.md.
EXCEPTIONS = {("services/client", "services/rpc/local_charts.h")}
# What a layer may not see even through the headers that it includes.
UNSEEN = {"services/rpc": "storage", "services/client": "storage"}
RPC = ["services/rpc", "services/rpc/charts", "services/rpc/converters/charts"]
# Libraries that only these layers may use.
LIBRARIES = {
    r"pqxx/": ["storage"],
    r"(grpcpp|grpc)/": RPC + ["services/server", "services/client"],
    r"google/protobuf/": RPC + ["services/client"],
    r"spdlog/": ["services/server"],
    r"(cairo|pango)": ["services/drawing"],
    r"png\.h": ["services/images"],
    r"toml\+\+/": ["services/client"],
    r"utf8(\.h|/)": ["services/text"],
}
# A header with fewer lines than the first is joined to its only user if both then have at most the second.
SMALL_HEADER, LONGEST_JOINED = 40, 300
INCLUDE = re.compile(r'^\s*#\s*include\s+[<"]([^">]+)[">]', re.M)


def layer_of(path):
    return next((layer for layer in LAYERS if path.startswith(layer + "/")), None)


def faults(path, text):
    layer = layer_of(path)
    for name in INCLUDE.findall(text):
        target = layer_of(name) or next(
            (p for p in ("rowproof/v1", "google/rpc") if name.startswith(p + "/")), None)
        leaf = target in LEAVES and layer not in LEAVES
        if target and target != layer and not leaf and target not in ALLOWED[layer] and \
                name not in ALLOWED[layer] and (layer, name) not in EXCEPTIONS:
            yield "%s includes %s" % (path, name)
        for pattern, users in LIBRARIES.items():
            if re.match(pattern, name) and layer not in users:
                yield "%s includes %s" % (path, name)
        if re.match("pqxx/", name) and path.endswith(".h"):
            yield "%s includes %s: libpqxx belongs in .cc files" % (path, name)


def unseen_faults(texts):
    """Arrows of UNSEEN that lead over other headers; `texts` holds every file's text by its path."""
    for path in texts:
        unseen = UNSEEN.get(layer_of(path))
        ways, seen = [[path]] if unseen else [], {path}
        while ways:
            way = ways.pop()
            if way[-1].startswith(unseen + "/"):
                yield " includes ".join(way)
                continue
            for name in INCLUDE.findall(texts.get(way[-1], "")):
                if name not in seen:
                    seen.add(name)
                    ways.append(way + [name])


def folder_of(path):
    return path.rpartition("/")[0]


def lone_sources(paths):
    """In a folder, every source but a main program has a header of its own name, or none has."""
    folders = {}
    for path in paths:
        if path.endswith(".cc") and not path.endswith("_main.cc"):
            folders.setdefault(folder_of(path), []).append(path)
    for sources in folders.values():
        lone = [path for path in sources if path[:-2] + "h" not in paths]
        if len(lone) < len(sources):
            yield from ("%s has no header of its name, and others of its folder have" % path
                        for path in lone)


def small_headers(texts, everything):
    """Headers of `texts` that belong in the one file that includes them; `everything` may include."""
    users = {}
    for path, text in everything.items():
        for name in INCLUDE.findall(text):
            users.setdefault(name, set()).add(path)
    for header, text in texts.items():
        source = header[:-1] + "cc"
        others = users.get(header, set()) - {source}
        if not header.endswith(".h") or text.count("\n") >= SMALL_HEADER or len(others) != 1:
            continue
        user, = others
        lines = (texts.get(source, text) + everything[user]).count("\n")
        if folder_of(user) == folder_of(header) and lines <= LONGEST_JOINED:
            yield "%s belongs in %s, which alone includes it" % (header, user)


def main():
    # The check itself must be able to fail.
    assert list(faults("services/domain/x.cc", '#include <pqxx/pqxx>\n#include "storage/x.h"\n'))
    assert list(faults("services/usecases/charts/x.cc", '#include "services/usecases/seats.h"\n'))
    assert list(faults("services/text/x.cc", '#include "services/domain/check.h"\n'))
    assert not list(faults("storage/x.cc", '#include "services/text/utf8.h"\n'))
    assert not list(faults("storage/x.cc", "#include <pqxx/pqxx>\n"))
    assert list(unseen_faults({"services/rpc/x.cc": '#include "services/usecases/x.h"\n',
                               "services/usecases/x.h": '#include "storage/x.h"\n'}))
    assert list(lone_sources({"storage/x.cc", "storage/y.cc", "storage/y.h"}))
    assert not list(lone_sources({"storage/x.cc", "storage/z/y.cc", "storage/z/y.h"}))
    small = {"storage/x.h": "\n", "storage/x.cc": "\n", "storage/y.cc": '#include "storage/x.h"\n'}
    assert list(small_headers(small, small))
    assert not list(small_headers(small, {**small, "tests/x.cc": '#include "storage/x.h"\n'}))
    assert not list(small_headers({**small, "storage/x.cc": "\n" * 300}, small))
    files = subprocess.run(["git", "ls-files", "*.cc", "*.h"], cwd=TOP, check=True,
                           capture_output=True, text=True).stdout.split()
    everything = {path: (TOP / path).read_text() for path in files}
    texts = {path: text for path, text in everything.items() if layer_of(path)}
    found = [fault for path, text in texts.items() for fault in faults(path, text)]
    found += unseen_faults(texts)
    found += lone_sources(texts)
    found += small_headers(texts, everything)
    print("\n".join(found) or "%d files keep to the layers" % len(files))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
