"""What an archive carries so that it can be made again: the spec, its results, the order it was made to."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from typing import Any

from generator.document.composed import Attached
from generator.errors import OutputError
from generator.release.standing import PURPOSES, Standing, Waived
from generator.revision.order import Order, Since
from generator.spec.source import Source, source_of

SPEC, SINCE, RESULTS, ORDER = "spec/", "since/", "results.json", "order.json"


def carried(source: Source, order: Order, results: str, day: str) -> tuple[Attached, ...]:
    """The files inside an archive of this order; `day` stands as the day of each."""
    return tuple(_carried(source, order, results, day))


def _carried(source: Source, order: Order, results: str, day: str) -> Iterator[Attached]:
    for f in source.files:
        yield Attached(SPEC + f.path, "Spec this packet was made from", f.data, "Source", day)
    yield Attached(RESULTS, "Results of this packet", results.encode(), "Data", day)
    yield Attached(ORDER, "What this packet was made as", _told(order), "Data", day)
    for f in order.since.source.files if order.since is not None else ():
        yield Attached(SINCE + f.path, "Spec of the revision it is compared with", f.data, "Supplement", day)


def _told(order: Order) -> bytes:
    since = order.since
    held = {
        "to": order.to, "units": order.units, "standing": None if order.standing is None else asdict(order.standing),
        "since": None if since is None else {"data": since.data, "holders": since.holders, "stale": since.stale},
    }
    return (json.dumps(held, sort_keys=True, indent=1, ensure_ascii=False) + "\n").encode()


def order_in(files: Mapping[str, bytes]) -> tuple[Source, Order]:
    """The spec and the order in the files of an archive; raises OutputError if they are not those of one."""
    try:
        held = json.loads(files[ORDER])
        since = None
        if held["since"] is not None:
            told = {name: tuple(held["since"][name]) for name in ("data", "holders", "stale")}
            since = Since(_source(files, SINCE), **told)
        order = Order(str(held["to"]), held["units"], _standing(held["standing"]), since=since, one_file=True)
    except (KeyError, ValueError, TypeError):
        raise OutputError(f"not an archive of a packet: its {ORDER} is missing or is not one") from None
    return _source(files, SPEC), order


def _standing(held: Any) -> Standing | None:
    if held is None:
        return None
    standing = Standing(**{**held, "waivers": tuple(Waived(**w) for w in held["waivers"])})
    if standing.purpose not in PURPOSES or type(standing.number) is not int:
        raise ValueError(standing.purpose)
    return standing


def _source(files: Mapping[str, bytes], prefix: str) -> Source:
    return source_of(prefix.rstrip("/"), {n.removeprefix(prefix): d for n, d in files.items() if n.startswith(prefix)})
