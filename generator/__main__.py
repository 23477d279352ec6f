"""The command line: arguments in, faults to stderr, exit code out: 0 done, 1 not built, 2 bad spec, 3 a check fails."""

import argparse
import gc
import re
import sys
from collections.abc import Sequence
from pathlib import Path

from generator import __version__
from generator.errors import OutputError, PacketError, SpecError

DONE, NOT_BUILT, BAD_SPEC, CHECK_FAILS = 0, 1, 2, 3
RECIPIENTS = ("owner", "fabricator", "official", "insurer", "haulier", "engineer")
"""Whose packet may be built; release grants to the same, but is not loaded to read an argument."""


PURPOSES = ("review", "quote", "approval", "fabrication", "information", "as-built")
"""What a packet may be issued for; release prints the same, but is not loaded to read an argument."""
REPLIES = ("acknowledgement", "quote", "approval", "question", "letter", "ticket")
"""What may come back."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; every fault becomes a line on stderr with the way out."""
    arguments = _parser().parse_args(argv)
    # A command ends soon and leaves next to no cycles: looking for them would cost a twentieth of its time.
    gc.disable()
    try:
        code: int = arguments.run(arguments)
    except SpecError as fault:
        print(f"{fault}\n{_count(len(fault.faults), 'fault')} in the spec; nothing was written.", file=sys.stderr)
        return BAD_SPEC
    except PacketError as fault:
        print(fault, file=sys.stderr)
        return fault.exit_code
    except KeyboardInterrupt:
        print("stopped; the packet before is untouched", file=sys.stderr)
        return NOT_BUILT
    except BrokenPipeError:
        sys.stderr.close()
        return NOT_BUILT
    except (MemoryError, RecursionError):
        print("the spec is too large for this machine's memory; nothing was written", file=sys.stderr)
        return NOT_BUILT
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="packet", description="Turns a spec folder into a build packet for the trailer of a house on wheels."
    )
    parser.add_argument("--version", action="version", version=f"packet {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    new = commands.add_parser("new", help="write a commented spec folder that already builds")
    new.add_argument("folder", type=Path)
    new.add_argument("--type", choices=["gooseneck", "ball", "king-pin"], default="gooseneck", help="kind of coupling")
    new.add_argument("--units", choices=["us", "si"], default="us", help="units of the folder")
    new.set_defaults(run=_new)

    check = commands.add_parser("check", help="print faults and a table of checks")
    _folder(check)
    check.add_argument("--json", action="store_true", help="print results.json of the owner instead of a table")
    check.set_defaults(run=_check)

    build = commands.add_parser("build", help="build the packet of one recipient")
    _folder(build)
    build.add_argument("--to", choices=RECIPIENTS, default="owner", help="whose packet")
    build.add_argument("--out", type=Path, help="folder of the packet (default: packets/NAME/RECIPIENT)")
    build.add_argument("--one-file", action="store_true", help="write all documents as one PDF too")
    build.add_argument("--strict", action="store_true", help="exit 3 if a check fails")
    build.add_argument("--fresh", action="store_true", help="do not use the cache of rendered documents")
    build.set_defaults(run=_build)

    _trail_commands(commands)

    compare = commands.add_parser("compare", help="set the options of a folder beside its design")
    _folder(compare)
    compare.add_argument("--json", action="store_true", help="SI values for other programs instead of a table")
    compare.set_defaults(run=_compare)

    explain = commands.add_parser("explain", help="one check's working, and the smallest change that clears it")
    explain.add_argument("id", metavar="ID", help="id of a check, quantity or window, such as axle.1.rating")
    _folder(explain)
    explain.set_defaults(run=_explain)

    schema = commands.add_parser("schema", help="print the JSON Schema of the spec files")
    schema.set_defaults(run=_schema)

    test = commands.add_parser("test", help="run the tests of this program")
    test.add_argument("--bench", action="store_true", help="run the benchmarks instead")
    test.add_argument("pytest", nargs=argparse.REMAINDER, help="handed on to pytest")
    test.set_defaults(run=_test)
    return parser


def _trail_commands(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Commands of the paper trail."""
    issue = commands.add_parser("issue", help="freeze a packet under the revision due and write it into the log")
    _folder(issue)
    issue.add_argument("--to", choices=RECIPIENTS, required=True, help="whose packet")
    issue.add_argument("--purpose", choices=PURPOSES, required=True, help="what it is issued for")
    issue.add_argument("--addressee", type=_word, help="which of several readers, in one word")
    issue.add_argument("--date", default="", help="day of issue (default: the day of the last revision)")
    issue.add_argument("--by", default="", help="how it is sent")
    issue.add_argument("--due", default="", help="day by which an answer is due")
    issue.set_defaults(run=_issue)

    receive = commands.add_parser("receive", help="keep a file that came back, unopened, and write it into the log")
    receive.add_argument("folder", type=Path, help="spec folder")
    receive.add_argument("file", type=Path, help="the file as it came")
    receive.add_argument("--as", dest="what", choices=REPLIES, required=True, help="what it is")
    receive.add_argument("--from", dest="sender", required=True, help="from whom, in a word")
    receive.add_argument("--at", required=True, help="when it came: 2026-05-31 or '2026-05-31 14:30'")
    receive.add_argument("--answers", type=int, default=0, help="number of the transmittal it answers")
    receive.set_defaults(run=_receive)

    changes = commands.add_parser("changes", help="what moved between two designs")
    changes.add_argument("old", type=Path, help="spec folder, or the folder of a revision under issued/")
    changes.add_argument("new", type=Path, help="spec folder, or the folder of a revision under issued/")
    changes.add_argument("--to", choices=RECIPIENTS, default="owner", help="as whom")
    changes.add_argument("--units", choices=["us", "si"], help="units shown (default: the project's)")
    changes.add_argument("--json", action="store_true", help="print it as JSON")
    changes.set_defaults(run=_changes)

    unpack = commands.add_parser("unpack", help="write the files an archive carries into a new folder")
    unpack.add_argument("file", type=Path, help="packet.pdf of the owner")
    unpack.add_argument("folder", type=Path, help="a folder that does not exist yet")
    unpack.set_defaults(run=_unpack)

    verify = commands.add_parser("verify", help="find every changed, missing or extra byte of what was issued")
    verify.add_argument("folder", type=Path, metavar="what",
                        help="spec folder with what was issued from it, one packet folder, or an archive to make again")
    verify.set_defaults(run=_verify)


def _word(text: str) -> str:
    if not re.fullmatch(r"[a-z][a-z0-9-]{0,39}", text):
        raise argparse.ArgumentTypeError(f"{text!r}: write small letters, digits and hyphens, a letter first")
    return text


def _folder(command: argparse.ArgumentParser) -> None:
    command.add_argument("folder", type=Path, help="spec folder")
    command.add_argument("--units", choices=["us", "si"], help="units shown (default: the project's)")


def _new(arguments: argparse.Namespace) -> int:
    from generator.spec.new import new_folder

    new_folder(arguments.folder, arguments.type, arguments.units)
    print(f"{arguments.folder}: written; next: packet check {arguments.folder}")
    return DONE


def _check(arguments: argparse.Namespace) -> int:
    from generator.design import checks_of, design

    if arguments.json:
        from generator.release.cut import owner_results_json

        it = design(arguments.folder)
        checks = it.results.checks
        sys.stdout.write(owner_results_json(it.model, it.results, it.data, arguments.units))
    else:
        from generator.calc.shown import table, tally
        from generator.units import Show

        model, checks = checks_of(arguments.folder)
        project = model.spec.project
        print(table(checks, Show(arguments.units or project.units, project.currency)))
        print(tally(checks))
    return CHECK_FAILS if any(c.status == "fail" for c in checks) else DONE


def _build(arguments: argparse.Namespace) -> int:
    from generator.build import build
    from generator.revision.order import Order
    from generator.store import Store, user_cache

    out = arguments.out or Path("packets") / arguments.folder.resolve().name / arguments.to
    store = Store(None if arguments.fresh else user_cache())
    order = Order(arguments.to, arguments.units, one_file=arguments.one_file)
    built = build(arguments.folder, out, order, store, _progress)
    print(f"{out}: {'unchanged, already current' if built.current else 'packet written'}; open {out / 'index.html'}")
    if built.without_pdf:
        print(f"HTML only: {built.without_pdf}", file=sys.stderr)
    return CHECK_FAILS if arguments.strict and "fail" in built.statuses else DONE


def _issue(arguments: argparse.Namespace) -> int:
    from generator.issue import Wish, issue
    from generator.store import Store, user_cache

    a = arguments
    wish = Wish(a.to, a.purpose, a.addressee or "", a.date, a.by, a.due, a.units)
    entry = issue(a.folder, wish, Store(user_cache()), _progress)
    print(f"transmittal {entry.number}: revision {entry.revision} issued to {entry.to}; "
          f"send {a.folder / 'issued' / entry.folder}")
    for number in entry.supersedes:
        print(f"transmittal {number} is superseded; ask for it back or tell its reader to put it away")
    return DONE


def _receive(arguments: argparse.Namespace) -> int:
    from generator.issue import Reply, receive

    a = arguments
    entry = receive(a.folder, a.file, Reply(a.what, a.sender, a.at, a.answers))
    print(f"received {entry.number}: kept as {a.folder / 'issued' / entry.file}, SHA-256 {entry.sha256}")
    return DONE


def _changes(arguments: argparse.Namespace) -> int:
    import json
    from dataclasses import asdict

    from generator.build import difference
    from generator.issue import opened, since
    from generator.revision.told import told

    a = arguments
    new, revision = opened(a.new)
    found, sheets = difference(since(a.old, revision), new, a.to, a.units)
    if a.json:
        touched = {s.number: [asdict(o) for o in s.changed] for s in sheets if s.changed}
        print(json.dumps(asdict(found) | {"sheets": touched}, indent=1, sort_keys=True, ensure_ascii=False))
    else:
        print(told(found, sheets))
    return DONE


def _unpack(arguments: argparse.Namespace) -> int:
    from generator.issue import unpack

    files = unpack(arguments.file, arguments.folder)
    print(f"{arguments.folder}: {_count(len(files), 'file')}; the spec is {arguments.folder / 'spec'}")
    return DONE


def _verify(arguments: argparse.Namespace) -> int:
    if arguments.folder.is_file():
        return _verify_archive(arguments.folder)
    from generator.revision.verify import head_of, verified

    problems = list(verified(arguments.folder))
    for problem in problems:
        print(problem, file=sys.stderr)
    if problems:
        print(_count(len(problems), "problem"), file=sys.stderr)
        return NOT_BUILT
    print(f"{arguments.folder}: every byte as issued{head_of(arguments.folder)}")
    return DONE


def _verify_archive(file: Path) -> int:
    from generator.issue import remade

    if remade(file, _progress):
        print(f"{file}: made again from the files it carries, the same to the byte")
        return DONE
    print(f"{file}: made again from the files it carries, it comes out otherwise: it was edited, or was made by "
          "another version of this program or its packages", file=sys.stderr)
    return NOT_BUILT


def _compare(arguments: argparse.Namespace) -> int:
    from generator.calc.abreast import abreast
    from generator.design import compared, design
    from generator.release.results import comparison_json
    from generator.units import Show

    it = compared(design(arguments.folder))
    project = it.model.spec.project
    if it.results.comparison is None:
        raise OutputError(f"{arguments.folder}: no options/*.yaml to compare; docs/guide.md shows how one is written")
    show = Show(arguments.units or project.units, project.currency)
    print(comparison_json(it.results.comparison) if arguments.json else abreast(it.results.comparison, show))
    return DONE


def _explain(arguments: argparse.Namespace) -> int:
    from generator.calc.shown import explanation
    from generator.design import design
    from generator.units import Show

    it = design(arguments.folder, arguments.id)
    project = it.model.spec.project
    text = explanation(arguments.id, it.results, Show(arguments.units or project.units, project.currency))
    if text is None:
        from difflib import get_close_matches

        ids = [r.id for kind in (it.results.checks, it.results.quantities, it.results.windows) for r in kind]
        near = ", ".join(get_close_matches(arguments.id, ids, 5, 0.4)) or "see packet check for the ids"
        raise OutputError(f"{arguments.id}: no such check, quantity or window; near it: {near}")
    print(text)
    return DONE


def _schema(arguments: argparse.Namespace) -> int:
    import json

    from generator.spec.schema import schema

    print(json.dumps(schema(), indent=1, sort_keys=True, ensure_ascii=False))
    return DONE


def _test(arguments: argparse.Namespace) -> int:
    import subprocess

    home = Path(__file__).resolve().parent.parent
    if not (home / "tests").is_dir():
        raise OutputError("the tests come with the source, not with the installed program")
    what = ["tests/bench/run.py"] if arguments.bench else ["-m", "pytest", "-n", "auto"]
    return subprocess.run([sys.executable, *what, *arguments.pytest], cwd=home, check=False).returncode


def _progress(stage: str) -> None:
    print(f"{stage} ...", file=sys.stderr, flush=True)


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


if __name__ == "__main__":
    sys.exit(main())
