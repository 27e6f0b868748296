#!/usr/bin/env python3
"""Runs every command of a page's console blocks, in order, and compares what it prints.

    python3 check_readme.py PAGE SOURCE-FOLDER BUILD-FOLDER RECORDED-EXAMPLE        PAGE: README.md or DEVELOPERS.md

A block begins with ```console. In it
    $ COMMAND       is run by sh; all commands of the page share one shell, so cd and export last
    > MORE          a further line of the command above, a here-document for instance
    other lines     are what it must print; "..." stands for any text in a line, a line that is only "..." for any lines
    [exit N]        after them: its exit status, 0 where nothing is said
A command that builds or tests everything is not run here, since this check is part of it: the script it names must be there.

The shell works in a folder that is thrown away. It looks like the root of the project after `sh example-site/run.sh`: build/bin is
the build's, build/example a copy of the recorded example, example-site the folder of that name.
"""
import difflib
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

RUN_ELSEWHERE = re.compile(r"^(sh (?P<script>\S+\.sh)|cmake|ninja|git|\./)")
EXIT = re.compile(r"^\[exit (\d+)\]$")


class Command:
    def __init__(self, line, text):
        self.line, self.text = line, text
        self.expected, self.status = [], 0


def commands_of(page):
    """The commands of all console blocks. Any other line of a block belongs to the command above it."""
    found, inside = [], False
    for number, line in enumerate(page.read_text(encoding="utf-8").splitlines(), 1):
        if line.startswith("```"):
            inside = line == "```console"
        elif inside and line.startswith("$ "):
            found.append(Command(number, line[2:]))
        elif inside and line.startswith("> "):
            found[-1].text += "\n" + line[2:]
        elif inside:
            status = EXIT.match(line)
            if status:
                found[-1].status = int(status.group(1))
            else:
                found[-1].expected.append(line.rstrip())
    for command in found:
        while command.expected and not command.expected[-1]:
            command.expected.pop()
    return found


class Shell:
    """One sh for the whole page."""
    END = "-- end of command --"

    def __init__(self, folder, environment):
        self.process = subprocess.Popen(["sh"], cwd=folder, env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                        stderr=subprocess.STDOUT, text=True, encoding="utf-8")

    def run(self, text):
        self.process.stdin.write(f"{{ {text}\n}} </dev/null 2>&1\necho \"\n{self.END} $?\"\n")
        self.process.stdin.flush()
        lines = []
        for line in self.process.stdout:
            if line.startswith(self.END):
                return lines, int(line.split()[-1])
            lines.append(line.rstrip())
        return lines, -1  # the shell is gone

    def close(self):
        self.process.stdin.close()
        self.process.wait()


def pattern_of(expected):
    parts = []
    for line in expected:
        if line.strip() == "...":
            parts.append(r"(?:[^\n]*\n)*?")
        else:
            parts.append(r"[^\n]*?".join(re.escape(part) for part in line.split("...")) + r"\n")
    return re.compile("".join(parts))


def without_blank_end(lines):
    lines = list(lines)
    while lines and not lines[-1]:
        lines.pop()
    return lines


def differences(page, command, printed, status):
    said = without_blank_end(printed)
    told = []
    if not pattern_of(command.expected).fullmatch("".join(line + "\n" for line in said)):
        told += list(difflib.unified_diff(command.expected, said, page.name, "printed", lineterm=""))
    if status != command.status:
        told.append(f"exit status {status}, and {page.name} says {command.status}")
    return told


def lay_out(folder, source, build, example):
    (folder / "build").mkdir()
    (folder / "build" / "bin").symlink_to(build / "bin")
    # Without the journal that a reader beside us may just have opened: it is empty.
    shutil.copytree(example, folder / "build" / "example", ignore=shutil.ignore_patterns("book.db-*"))
    (folder / "build" / "example" / "out").mkdir(exist_ok=True)
    shutil.copytree(source / "example-site", folder / "example-site")


def environment():
    """That of a person who has set nothing up: no site, no initials, plain sorting."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PEELBOOK_") and name != "TZ"}
    return kept | {"LC_ALL": "C.UTF-8"}


def check(page, source, build, example):
    failed = 0
    commands = commands_of(page)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        lay_out(folder, source, build, example)
        shell = Shell(folder, environment())
        for command in commands:
            elsewhere = RUN_ELSEWHERE.match(command.text)
            if elsewhere:
                script = elsewhere.group("script")
                told = [] if not script or (source / script).is_file() else [f"there is no {script}"]
            else:
                told = differences(page, command, *shell.run(command.text))
            if told:
                failed += 1
                print(f"{page.name}:{command.line}: $ {command.text}")
                print("\n".join("    " + line for line in told))
        shell.close()
    print(f"{len(commands)} commands of {page.name}, {failed} differ")
    return 0 if commands and not failed else 1


if __name__ == "__main__":
    if len(sys.argv) != 5:
        sys.exit(__doc__)
    sys.exit(check(*(Path(argument).resolve() for argument in sys.argv[1:5])))
