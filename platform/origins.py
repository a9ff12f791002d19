#!/usr/bin/env python3
"""Checks where the crates come from that the program is built of, and their licences, by deny.toml.

Reads what Cargo knows of them; only the standard library is needed. `platform/judge.sh --all` has
cargo-deny check the same, and the texts of the licences too.
"""

import json
import re
import subprocess
import sys
import tomllib

REGISTRY = "registry+https://github.com/rust-lang/crates.io-index"


def allowed(expression, names):
    """Whether an SPDX expression can be met with these licences."""
    parts = re.findall(r"\(|\)|[^\s()]+", expression.replace("/", " OR "))
    words = []
    # "Apache-2.0 WITH LLVM-exception" is one licence.
    while parts:
        part = parts.pop(0)
        if parts[:1] == ["WITH"]:
            part += " WITH " + parts[1]
            parts = parts[2:]
        words.append(part)
    values = {"(": "(", ")": ")", "AND": "and", "OR": "or"}
    return eval(" ".join(values.get(word, str(word in names)) for word in words))  # Only the words above are in it.


def main():
    with open("deny.toml", "rb") as file:
        names = set(tomllib.load(file)["licenses"]["allow"])
    host = re.search(r"host: (\S+)", subprocess.check_output(["rustc", "-vV"], text=True)).group(1)
    metadata = json.loads(
        subprocess.check_output(["cargo", "metadata", "--locked", "--format-version", "1", "--filter-platform", host])
    )
    used, waiting = set(), [metadata["resolve"]["root"]]
    nodes = {node["id"]: node for node in metadata["resolve"]["nodes"]}
    while waiting:
        at = waiting.pop()
        if at in used:
            continue
        used.add(at)
        # What only tests use is in nothing that is handed out.
        waiting += [
            dependency["pkg"]
            for dependency in nodes[at]["deps"]
            if any(kind["kind"] != "dev" for kind in dependency["dep_kinds"])
        ]
    wrong = []
    for package in metadata["packages"]:
        if package["id"] not in used or package["source"] is None:
            continue
        name = f"{package['name']} {package['version']}"
        if package["source"] != REGISTRY:
            wrong.append(f"{name} comes from {package['source']}")
        if not allowed(package["license"] or "none", names):
            wrong.append(f"{name} has the licence {package['license']}")
    if len(used) < 50:
        wrong.append(f"only {len(used)} crates were looked at")
    sys.exit("\n".join(wrong) if wrong else 0)


main()
