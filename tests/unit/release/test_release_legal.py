"""Rules by recipient: a shop sees what it builds, never the route or the owner's correspondence."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from release_canary import texts
from release_sample import data, spec

from generator.calc.legal import Asked, Trigger
from generator.calc.run import NO_LEVERS, calculate
from generator.calc.trials import Trials
from generator.model.resolve import resolve
from generator.release.cut import cut
from generator.release.grants import RULES, may_see
from generator.release.legal import legal
from generator.release.slices import Legal
from generator.spec.models.project import Confirmation

REPLY = "Zanzibar office says yes"


@cache
def made():
    answers = tuple(Confirmation(rule=r, asked="Zanzibar office", reply=REPLY, date="2026-11-01")
                    for r in ("lamps-us-wide", "dwelling-us-wide"))
    project = spec().project.model_copy(update={"confirmations": answers})
    model = resolve(replace(spec(), project=project), data())
    with np.errstate(all="ignore"):
        return model, calculate(model, data(), Trials(count=0), levers=NO_LEVERS)


def rulings_for(to):
    desk = cut(*made(), data(), to)
    held = desk.get(Legal)
    assert isinstance(held, Legal)
    return desk, held.rulings


def test_the_owner_sees_every_rule_and_every_reply():
    _, held = rulings_for("owner")
    assert held == made()[1].rulings
    assert {t.id for t in held.triggers if t.asked.reply == REPLY} == {"lamps-us-wide", "dwelling-us-wide"}


def test_the_fabricator_sees_what_a_shop_builds():
    _, held = rulings_for("fabricator")
    topics = {t.topic for t in held.triggers}
    assert topics == {"brakes", "coupling", "lamps", "label", "width"}
    assert held.path == ""
    assert held.paths == ()


def test_the_fabricator_is_told_neither_route_nor_replies():
    desk, held = rulings_for("fabricator")
    said = "\n".join(texts(desk))
    for secret in ("Zanzibar", "US-CA", "California", "US-OR", "Oregon, Utah"):
        assert secret not in said
    assert {t.regions for t in held.triggers} == {()}
    assert held.regions == ()
    assert {t.asked for t in held.triggers} == {Asked()}


def test_a_haulier_gets_the_road_alone():
    held = legal(made()[1].rulings, "haulier", str)
    assert held is not None
    topics = {t.topic for t in held.rulings.triggers}
    assert topics == {"size", "width", "weight", "driver", "brakes", "coupling", "lamps"}
    assert held.rulings.triggers[0].regions != ()
    assert {t.asked for t in held.rulings.triggers} == {Asked()}


@pytest.mark.parametrize("to", ["official", "insurer"])
def test_official_and_insurer_see_claims_and_replies(to):
    held = legal(made()[1].rulings, to, str)
    assert held is not None
    assert held.rulings.path == "rv"
    assert REPLY in {t.asked.reply for t in held.rulings.triggers}


def test_whoever_is_not_named_gets_none():
    assert legal(made()[1].rulings, "engineer", str) is None


def test_checks_of_rules_follow_the_same_grants():
    desk, held = rulings_for("fabricator")
    seen = {t.id for t in held.triggers}
    told = {c.id.removeprefix("rule.") for s in desk.slices if hasattr(s, "checks") for c in s.checks
            if c.id.startswith("rule.")}
    assert told
    assert told <= seen
    assert all(may_see(RULES["fabricator"], id) for id in told)


def test_needs_lose_the_names_of_spec_files():
    unknown = next(t for t in made()[1].rulings.triggers if t.topic == "lamps")
    assert isinstance(unknown, Trigger)
    rulings = replace(made()[1].rulings, triggers=(replace(unknown, needs=("tow.yaml vehicle.length",)),))
    held = legal(rulings, "fabricator", lambda text: text.removeprefix("tow.yaml "))
    assert held is not None
    assert held.rulings.triggers[0].needs == ("vehicle.length",)
