#!/usr/bin/env python3
"""What there is must be written down: commands for their users, tables and folders for whoever carries the work on.

    python3 check_coverage.py SOURCE-FOLDER PROGRAM

  - every command that `help` lists stands in README.md's overview, and its own help has an example that names it;
  - every table and view of schema/, every folder of src/ and every report stands in DEVELOPERS.md;
  - the overview names no command that there is not;
  - every file and folder that one of the two documents names in `code` marks is there;
  - src/rules.md names only what is there, a test names each of its rules ("rule 14: ..."), and nothing cites one that it does not have.
"""
import re
import subprocess
import sys
from pathlib import Path


def printed(program, *words):
    return subprocess.run([program, *words], capture_output=True, text=True, encoding="utf-8", check=True).stdout


def commands(program):
    """The names in the list that `help` prints: two blanks, the name, two blanks or more, what it does."""
    found = []
    for line in printed(program, "help").splitlines():
        entry = re.match(r"^  ([a-z]+(?: [a-z]+)?)\s{2,}\S", line)
        if entry:
            found.append(entry.group(1))
    return found


def in_code(text):
    """Everything in single back quotes outside fenced blocks."""
    prose = re.sub(r"^```.*?^```$", "", text, flags=re.M | re.S)
    return set(re.findall(r"`([^`\n]+)`", prose))


def section(text, heading):
    after = text.split(f"\n## {heading}\n", 1)
    return after[1].split("\n## ", 1)[0] if len(after) == 2 else ""


def check_commands(program, readme):
    overview = in_code(section(readme, "Commands, by person"))
    for name in commands(program):
        if name not in overview and name.split()[0] not in overview:
            yield f"README.md: the overview does not name the command '{name}'"
        _, _, examples = printed(program, *name.split(), "--help").partition("\nexample")
        if f"peelbook {name}" not in examples:
            yield f"help of '{name}': no example"


def check_overview_names(program, readme):
    known = set(commands(program)) | {name.split()[0] for name in commands(program)}
    table = [line for line in section(readme, "Commands, by person").splitlines() if line.startswith("| ")]
    for line in table:
        for name in re.findall(r"`([^`]+)`", line):
            if name not in known:
                yield f"README.md: the overview names '{name}', and there is no such command"


def check_tables(source, developers):
    named = in_code(developers)
    for file in sorted((source / "schema").glob("0*.sql")):
        for table in re.findall(r"^CREATE (?:TABLE|VIEW) (\w+)", file.read_text(encoding="utf-8"), re.M):
            if table not in named:
                yield f"DEVELOPERS.md: does not name the table '{table}' of {file.name}"


def check_folders(source, developers):
    for kind, folder in (("layer", "src"), ("report", "reports")):
        for path in sorted((source / folder).iterdir()):
            if path.is_dir() and not re.search(rf"`(?:{folder}/)?{path.name}/?`", developers):
                yield f"DEVELOPERS.md: does not name the {kind} '{path.name}'"


def check_paths(source, name, text):
    for path in in_code(text):
        if re.match(r"^(src|schema|tests|reports|example-site|\.ci)/[\w./-]+$", path) and not (source / path).exists():
            yield f"{name}: names {path}, which is not there"


def cited(text, before):
    """The numbers of "rule 14", "rules 37 and 40", "Rules 1 to 4", where `before` precedes the word."""
    numbers = set()
    for found in re.findall(rf"{before}[Rr]ules? (\d+(?:(?:, | and | to )\d+)*)", text):
        numbers.update(int(n) for n in re.findall(r"\d+", found))
        for first, last in re.findall(r"(\d+) to (\d+)", found):
            numbers.update(range(int(first), int(last)))
    return numbers


def check_rules(source):
    page = (source / "src/rules.md").read_text(encoding="utf-8")
    rules = [int(n) for n in re.findall(r"^(\d+)\. \*\*", page, re.M)]
    if rules != list(range(1, len(rules) + 1)):
        yield "src/rules.md: its rules are not numbered 1, 2, 3 ..."
    for path in in_code(page) - {"src"}:
        if not (source / "src" / path).exists():
            yield f"src/rules.md: names {path}, which is not there"
    for file in sorted((source / "src").rglob("*.[hc]*")):
        for number in sorted(cited(file.read_text(encoding="utf-8"), r"(?<!-)\b") - set(rules)):
            yield f"{file.relative_to(source)}: cites rule {number}, and src/rules.md has none"
    named = set()
    for file in sorted((source / "tests").rglob("*.cpp")):
        named |= cited(file.read_text(encoding="utf-8"), '"')
    for number in sorted(named ^ set(rules)):
        yield f"src/rules.md: rule {number} " + ("is named by no test" if number in rules else "is named by a test and not there")


def main(source, program):
    readme = (source / "README.md").read_text(encoding="utf-8")
    developers = (source / "DEVELOPERS.md").read_text(encoding="utf-8")
    faults = [*check_commands(program, readme), *check_overview_names(program, readme), *check_tables(source, developers),
              *check_folders(source, developers), *check_paths(source, "README.md", readme),
              *check_paths(source, "DEVELOPERS.md", developers), *check_rules(source)]
    print("\n".join(faults) if faults else f"{len(commands(program))} commands, and every table, layer, report and rule: all named")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(Path(sys.argv[1]).resolve(), str(Path(sys.argv[2]).resolve())))
