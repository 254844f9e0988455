#!/usr/bin/env python3
"""Writes files into a C source, so that they are built into the program.

embed.py OUTPUT DEPFILE SYMBOL BASE PATH...

A PATH, below the folder BASE, is a file, or a folder whose .md and .txt files are taken. OUTPUT then defines the
array SYMBOL of Embedded (src/base/embedded.h), sorted by name, and SYMBOL_count. DEPFILE names the files and the
folders, so that one that is changed, added or taken away is built in again.
"""

import os
import sys


def found(path):
    if not os.path.isdir(path):
        return [path], []
    files, folders = [], []
    for folder, inner, names in os.walk(path):
        inner.sort()
        folders.append(folder)
        files += [os.path.join(folder, n) for n in names
                  if n.endswith((".md", ".txt")) and not n.startswith((".", "README"))]
    return files, folders


def literal(data):
    """C string literals, one for each line of data. An octal escape has three digits, so that no digit joins it."""
    lines = []
    for line in data.splitlines(keepends=True) or [b""]:
        text = "".join(chr(b) if 32 <= b < 127 and b not in b'"\\?' else "\\n" if b == 10 else f"\\{b:03o}"
                       for b in line)
        lines.append(f'"{text}"')
    return "\n     ".join(lines)


def main():
    output, depfile, symbol, base, *paths = sys.argv[1:]
    files, folders = [], []
    for path in paths:
        more_files, more_folders = found(path)
        files += more_files
        folders += more_folders
    rows = []
    for path in set(files):
        inside = os.path.relpath(path, base).replace(os.sep, "/")
        name = os.path.splitext(inside)[0]
        with open(path, "rb") as file:
            rows.append((name, os.path.dirname(inside), f"{os.path.basename(os.path.abspath(base))}/{inside}",
                         file.read()))
    rows.sort()
    with open(output, "w", encoding="ascii") as out:
        out.write('#include "base/embedded.h"\n\n')
        out.write(f"extern const Embedded {symbol}[];\nextern const int {symbol}_count;\n\n")
        out.write(f"const Embedded {symbol}[] = {{\n")
        for name, family, file, data in rows:
            out.write(f'    {{"{family}", "{name}", "{file}",\n     {literal(data)},\n     {len(data)}}},\n')
        if not rows:
            out.write("    {0}\n")
        out.write(f"}};\n\nconst int {symbol}_count = {len(rows)};\n")
    with open(depfile, "w", encoding="utf-8") as out:
        needed = " ".join(p.replace(" ", "\\ ") for p in sorted(files + folders))
        out.write(f"{output}: {needed}\n")


if __name__ == "__main__":
    main()
