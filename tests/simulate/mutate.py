"""mutate.py TREE "file | text in it | text instead | what it forgets": makes the change in a tree, and says which it is."""
import pathlib
import sys

tree, line = sys.argv[1:]
name, text, instead, forgets = (part.strip() for part in line.split(" | "))
path = pathlib.Path(tree, name)
was = path.read_text(encoding="utf-8")
if was.count(text) != 1:
    print(f"{name} says {was.count(text)} times: {text}")
    sys.exit(1)
path.write_text(was.replace(text, instead), encoding="utf-8")
print(f"{name} forgets {forgets}")
