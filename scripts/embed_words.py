#!/usr/bin/env python3
"""Writes the tables of languages into a C source.

embed_words.py OUTPUT DEPFILE FOLDER

Each TAG.txt of FOLDER has lines "key = words"; empty lines and those that begin with # are left out. OUTPUT
defines languages[] (src/booklet/language_table.h), English first, the keys of each sorted.
"""

import os
import sys

from embed import literal

BLANKS = " \t\r\n"  # and not the no-break space that some languages want before a semicolon


def rows_of(path):
    rows = {}
    with open(path, encoding="utf-8") as file:
        for number, line in enumerate(file, 1):
            line = line.strip(BLANKS)
            if not line or line.startswith("#"):
                continue
            key, equals, words = (part.strip(BLANKS) for part in line.partition("="))
            if not (key and equals and words):
                sys.exit(f"{path}:{number}: not \"key = words\"")
            if key in rows:
                sys.exit(f"{path}:{number}: {key} stands there twice")
            rows[key] = words
    return sorted((key.encode(), words.encode()) for key, words in rows.items())


def main():
    output, depfile, folder = sys.argv[1:]
    files = sorted((f for f in os.listdir(folder) if f.endswith(".txt")), key=lambda f: (f != "en.txt", f))
    with open(output, "w", encoding="ascii") as out:
        out.write('#include "booklet/language_table.h"\n')
        tables = []
        for file in files:
            tag = file[:-len(".txt")]
            rows = rows_of(os.path.join(folder, file))
            out.write(f"\nstatic const LanguageEntry words_{tag}[] = {{\n")
            for key, words in rows:
                out.write(f"    {{{literal(key)}, {literal(words)}}},\n")
            out.write("};\n")
            tables.append(f'    {{"{tag}", words_{tag}, {len(rows)}}},\n')
        out.write("\nconst Language languages[] = {\n" + "".join(tables) + "};\n")
        out.write(f"const int languages_count = {len(tables)};\n")
    with open(depfile, "w", encoding="utf-8") as out:
        needed = " ".join(os.path.join(folder, f).replace(" ", "\\ ") for f in files)
        out.write(f"{output}: {needed} {folder}\n")


if __name__ == "__main__":
    main()
