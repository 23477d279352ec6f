"""The rules as one recipient may see them: those granted, and route and correspondence only where granted too."""

from dataclasses import replace

from generator.calc.legal import Asked, Rulings, Trigger
from generator.release.grants import OWNER, REPLIES_TOLD, ROUTE_TOLD, RULES, may_see
from generator.release.reduced import Say
from generator.release.slices import Legal


def legal(rulings: Rulings, to: str, say: Say) -> Legal | None:
    """The rules granted to a recipient; none if no rule of the route is."""
    granted = RULES.get(to, ())
    seen = tuple(_told(t, to, say) for t in rulings.triggers if may_see(granted, t.id))
    if granted is None:
        return Legal(replace(rulings, triggers=seen), to == OWNER)
    if not seen:
        return None
    topics = {t.topic for t in seen}
    names = {words for topic, words in rulings.topics if topic in topics}
    lacking = tuple(replace(n, topics=tuple(t for t in n.topics if t in names)) for n in rulings.not_held)
    knows = to in ROUTE_TOLD
    return Legal(replace(
        rulings, path="", regions=rulings.regions if knows else (), triggers=seen, paths=(),
        not_held=tuple(n for n in lacking if n.topics) if knows else (),
        unknown_regions=rulings.unknown_regions if knows else (), names=rulings.names if knows else (),
        old_limits=rulings.old_limits if knows else (),
    ))


def _told(trigger: Trigger, to: str, say: Say) -> Trigger:
    if to == OWNER:
        return trigger
    return replace(
        trigger, needs=tuple(sorted({say(n) or "a value not stated" for n in trigger.needs})),
        regions=trigger.regions if to in ROUTE_TOLD else (),
        asked=trigger.asked if to in REPLIES_TOLD else Asked(),
    )
