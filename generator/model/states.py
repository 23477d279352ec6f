"""The eight load states as rows: what is aboard, how the tanks are filled, what the trailer stands on."""

from collections.abc import Iterable
from typing import Literal

from generator.model.types import State
from generator.spec.models.weights import Stage, Tank

Filling = Literal["empty", "travel", "wet", "full"]

_BUILT: tuple[Stage, ...] = ("bare", "shell", "dry")
_LOADED: tuple[Stage, ...] = (*_BUILT, "travel")

STATES: tuple[State, ...] = (
    State("bare", "Bare trailer, as delivered", True, ("bare",), "empty", "hitch and wheels"),
    State("shell", "Shell closed in", True, ("bare", "shell"), "empty", "hitch and wheels"),
    State("dry", "Finished, empty", True, _BUILT, "empty", "hitch and wheels"),
    State("travel", "Loaded for the road", True, _LOADED, "travel", "hitch and wheels"),
    State("travel_wet", "Loaded for the road, tanks as wet as ever towed", True, _LOADED, "wet", "hitch and wheels"),
    State("unhitched", "Loaded, unhitched", False, _LOADED, "travel", "nose jacks and wheels"),
    State("parked_light", "Parked, empty", False, _BUILT, "empty", "stands"),
    State("parked_heavy", "Parked, lived in, tanks full", False, (*_LOADED, "parked"), "full", "stands"),
)


def aboard(stage: Stage) -> tuple[float, ...]:
    """Share aboard in each state (1 or 0) of something that comes aboard at this stage."""
    return tuple(1.0 if stage in state.stages else 0.0 for state in STATES)


WORDS: dict[Stage, str] = {
    "bare": "the trailer as delivered", "shell": "the shell", "dry": "systems, interior and finishes",
    "travel": "furniture and contents", "parked": "people and what is aboard only when parked",
}


def told(state: State, tanks: Iterable[Tank]) -> str:
    """What is aboard in a state and how its tanks are filled, in words."""
    things = ", ".join(WORDS[stage] for stage in state.stages)
    fills = [f"{t.title} {filling(t)[STATES.index(state)]:.0%}".replace("%", " %") for t in tanks]
    return f"{things}; tanks: {', '.join(fills)}" if fills else things


def filling(tank: Tank) -> tuple[float, ...]:
    """Share of a tank's capacity aboard in each state; an unknown filling is NaN where it counts."""
    shares = {"empty": 0.0, "travel": tank.travel.nominal, "wet": tank.wet.nominal, "full": 1.0}
    return tuple(shares[state.tanks] for state in STATES)
