# SPDX-License-Identifier: MIT
"""Holds the two JSON Schemas against a general validator (Debian's python3-jsonschema, JSON Schema draft 2020-12):
prescription.schema.json takes what the program takes and refuses slips of the pen; schedule.schema.json takes what
`tickleaf inspect --stage schedule` prints. Arguments: the program, the source tree."""
import copy
import json
import random
import re
import subprocess
import sys
from pathlib import Path

try:
    import jsonschema
    import yaml
except ImportError as missing:
    sys.exit(f"{missing}: install Debian's python3-jsonschema and python3-yaml; the schemas were NOT checked")


class Core(yaml.SafeLoader):
    """Scalars as YAML 1.2.2, 10.3.2 (core schema) types them; PyYAML by itself reads YAML 1.1: dates, yes and no."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in [
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", "-+0123456789"),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "-+.0123456789"),
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
]:
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), list(first))

# Slips that an editor must underline: what is replaced in the demo, and by what.
SLIPS = [
    ("format: 1", "format: 2"),
    ("name: Rosa M.", "nmae: Rosa M."),
    ("  clinician: ", "  therapist: "),
    ("height: 162 cm", "height: 162"),
    ("side: right", "side: rigth"),
    ("starts: 2026-03-02", "starts: 2 March 2026"),
    ("minutes_per_day: 30", "minutes_per_day: half an hour"),
    ("carry_on_up_to: 2", "carry_on_up_to: 11"),
    ("weeks: 1-2", "weeks: one to two"),
    ("days_per_week: 7", "days_per_week: 8"),
    ("- do: ankle-pumps", "- exercise: ankle-pumps"),
    ("dose: 3 x 15, 3/day", "dose: 3 sets of fifteen"),
    ("dose: 3 x 15, 3/day", "dose: 30"),
    ("dose: 3 x 15, 3/day", "dose: {sets: 3, reps: 15}"),
    ("dose: 3 x 15, 3/day", "dose: {sets: 0, repetitions: 15}"),
    ("tempo: 1-1-3", "tempo: quickly"),
    ("begin: 15 s", "begin: low"),
    ("no impact", "no jumping about"),
    ("  weeks: 2  ", "  weeks: many"),
]

failures = []


def check(condition, what):
    if not condition:
        failures.append(what)


def schema_of(root, name):
    schema = json.loads((root / "templates" / name).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def complaints(validator, value):
    return [f"{list(error.path)}: {error.message[:200]}" for error in validator.iter_errors(value)]


def prescriptions(root, program):
    """What the program takes: the starters and the cases it finds no error in."""
    for path in sorted((root / "templates" / "starters").glob("*.yaml")):
        yield path
    for path in sorted((root / "tests" / "findings" / "cases").glob("*.yaml")):
        if subprocess.run([program, "check", path], capture_output=True, check=False).returncode == 0:
            yield path


def notation_rows(root, heading):
    """Texts of the first column of a table of NOTATION.md."""
    section = (root / "templates" / "NOTATION.md").read_text(encoding="utf-8").split(f"## {heading}\n")[1].split("\n## ")[0]
    return re.findall(r"^\| `([^`]+)` \|", section, re.MULTILINE)


def generated_doses(number):
    """Doses of the grammar of NOTATION.md, in any case of letters and with free spaces; the seed is 7."""
    random.seed(7)
    counts = lambda: random.choice(["3", "8-12", "4 - 5", "2\u20133"])
    time = lambda: counts() + random.choice([" s", "s", " sec", " seconds", " min", " minutes"])
    for _ in range(number):
        sets = counts() + random.choice([" x ", "x", " X ", " \u00d7 "])
        load = random.choice([lambda: sets + counts(), lambda: sets + time(), lambda: sets + "hold " + time(),
                              lambda: sets + "5 x " + time(), time, lambda: "time " + time(),
                              lambda: sets + "to fatigue at most 15", lambda: "to fatigue at most 15"])()
        each = random.choice(["", " each side"]) if "time" not in load else ""
        clauses = random.sample([", rest " + time(), ", " + counts() + "/day", ", " + counts() + " days/week"],
                                random.randint(0, 3))
        dose = load + each + "".join(clauses)
        yield random.choice([dose, dose.upper(), dose.replace(", ", ",")])


def check_notation(root, validator, demo):
    value = yaml.load(demo, Core)
    line = value["stages"][0]["exercises"][2]
    texts = [("dose", text) for text in notation_rows(root, "Doses") + list(generated_doses(500))]
    texts += [("tempo", text) for text in notation_rows(root, "Tempo")]
    check(len(texts) > 510, f"only {len(texts)} texts of the notation")
    for key, text in texts:
        before = line[key]
        line[key] = text
        found = complaints(validator, value)
        check(not found, f"the schema refuses {key}: {text}: {found}")
        line[key] = before


def check_prescriptions(root, program, taken):
    validator = schema_of(root, "prescription.schema.json")
    for path in taken:
        found = complaints(validator, yaml.load(path.read_text(encoding="utf-8"), Core))
        check(not found, f"{path.name} is taken by the program but not by the schema: {found}")
    demo = (root / "templates" / "starters" / "ankle-sprain.yaml").read_text(encoding="utf-8")
    check_notation(root, validator, demo)
    for before, after in SLIPS:
        check(before in demo, f"the demo has no {before!r} any more")
        slip = yaml.load(demo.replace(before, after, 1), Core)
        check(complaints(validator, slip), f"the schema takes the slip {after!r}")


def check_schedules(root, program, taken):
    validator = schema_of(root, "schedule.schema.json")
    for path in taken:
        ran = subprocess.run([program, "inspect", path, "--stage", "schedule"], capture_output=True, check=False)
        check(ran.returncode == 0, f"inspect {path.name} ended with {ran.returncode}")
        schedule = json.loads(ran.stdout)
        found = complaints(validator, schedule)
        check(not found, f"the schedule of {path.name} is not as its schema says: {found}")
        check_spoilt(validator, schedule)


def check_spoilt(validator, schedule):
    """The schema would notice: each value taken away, or turned into a word, somewhere in the first stage and day."""
    optional = {"review", "first_day", "last_day", "date", "family", "tempo"}
    for holder in ("stages", "days"):
        for key in schedule[holder][0]:
            for spoil in ("without", "word"):
                spoilt = copy.deepcopy(schedule)
                if spoil == "without":
                    del spoilt[holder][0][key]
                else:
                    spoilt[holder][0][key] = "three"
                if spoil == "without" and key in optional - {"first_day", "last_day"}:
                    continue
                check(complaints(validator, spoilt), f"the schedule's schema takes {holder}.{key} {spoil}")


def main():
    program, root = sys.argv[1], Path(sys.argv[2])
    taken = list(prescriptions(root, program))
    check(len(taken) >= 3, f"only {len(taken)} prescriptions to validate")
    check_prescriptions(root, program, taken)
    check_schedules(root, program, taken)
    for failure in failures:
        print("FAILED:", failure)
    print(f"{len(taken)} prescriptions and schedules valid, {len(SLIPS)} slips refused" if not failures else "")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
