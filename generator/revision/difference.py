"""What differs between two designs besides results: texts of the spec, data they were made with, who holds what."""

from collections.abc import Iterator, Mapping

from generator.release.changes import percent
from generator.release.standing import Moved
from generator.revision.letters import place
from generator.revision.trail import Trail, reader
from generator.spec.measure import Measure
from generator.spec.options import changed_texts
from generator.spec.read import parse_source, trees_of, walk
from generator.spec.source import Source

PARTS = ("project", "trailer", "house", "weights", "tow", "site", "costs")
Hashes = Mapping[str, str]


def fields_moved(old: Source, new: Source) -> tuple[Moved, ...]:
    """Every text of the spec that is other, with old and new text and by how much."""
    was, now = _measures(old), _measures(new)
    return tuple(
        Moved(m.path, "", m.was, m.now, percent(was[m.path].nominal, now[m.path].nominal)
              if m.path in was and m.path in now else "")
        for m in changed_texts(trees_of(old), trees_of(new))
    )


def _measures(source: Source) -> Mapping[str, Measure]:
    spec = parse_source(source)
    parts = ((name, getattr(spec, name)) for name in PARTS)
    return {f"{name}.{path}": m for name, part in parts if part is not None for path, _, m in walk(part)}


def data_moved(old: Mapping[str, object], new: Mapping[str, object]) -> tuple[str, ...]:
    """What of program, packages and reference tables is other, in sentences."""
    return tuple(_data_moved(old, new))


def _data_moved(old: Mapping[str, object], new: Mapping[str, object]) -> Iterator[str]:
    if old.get("tool") != new.get("tool"):
        yield f"This program was {old.get('tool')} and is {new.get('tool')}."
    for key, words in (("packages", "Package {}: {} before, {} now."), ("reference", "Reference table {0} is {3}.")):
        was, now = (held if isinstance(held := made.get(key), dict) else {} for made in (old, new))
        for name in sorted({*was, *now}):
            if was.get(name) != now.get(name):
                state = "new" if name not in was else "gone" if name not in now else "other"
                yield words.format(name, was.get(name, "none"), now.get(name, "none"), state)


def holders(trail: Trail, revision: str) -> tuple[str, ...]:
    """Who was sent an earlier revision and has had no later one."""
    return tuple(f"{reader(e)}: revision {e.revision} {e.purpose}, transmittal {e.number} of {e.date}"
                 for e in trail.current() if _is_earlier(e.revision, revision))


def stale(trail: Trail, revision: str) -> tuple[str, ...]:
    """Quotes and approvals that answer an earlier revision."""
    sent = {e.number: e for e in trail.issued}
    return tuple(
        f"{r.what} from {r.sender} of {r.at}: it answers transmittal {r.answers}, revision {sent[r.answers].revision}"
        for r in trail.received
        if r.what in ("quote", "approval") and r.answers in sent and _is_earlier(sent[r.answers].revision, revision)
    )


def _is_earlier(one: str, other: str) -> bool:
    """Whether a revision comes before another; a draft comes after all letters issued."""
    a, b = place(one), place(other)
    return a is not None and (b is None or a < b)
