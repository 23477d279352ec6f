"""No text of ours in any document speaks of another coupling or of other springs than the design has.

Every word of the spec itself is replaced by a token first, so that what is found was written by this program. The
options of a design are of other kinds on purpose; a draft without them is read.
"""

import html
import re
from dataclasses import replace
from pathlib import Path

import pytest
from release_canary import marked
from release_sample import data

from generator.calc.run import ALL_LEVERS, NO_LEVERS, calculate
from generator.document.documents import assemble
from generator.document.page import site
from generator.draw.sheets import drawn
from generator.model.resolve import resolve
from generator.release.cut import cut
from generator.spec.models.spec import Spec
from generator.spec.new import new_folder
from generator.spec.read import read_spec
from generator.units import Show

SPECS = Path(__file__).parents[3] / "specs"
DESIGNS = ("heron", "wren", "dipper", "first-sketch")
STARTERS = ("gooseneck", "ball", "king-pin")
FOREIGN = {
    "gooseneck": ("tongue", "tongues", "drawbar", "a-frame", "receiver", "ball mount", "king pin", "pin box", "jaws"),
    "king pin": ("ball", "ball's", "balls", "coupler", "coupler's", "gooseneck", "tongue", "drawbar", "a-frame",
                 "receiver", "socket"),
    "ball": ("neck", "neck's", "riser", "risers", "frame kit", "king pin", "pin box", "gooseneck", "bed rail",
             "bed rails", "jaws"),
    "leaf": ("bracket", "brackets", "torsion", "rubber", "trailing arm"),
    "torsion": ("leaf", "leaf spring", "leaf springs", "hanger", "hangers", "equaliser", "equalisers", "equalizer",
                "equalizers", "u-bolt", "u-bolts", "shackle", "shackles"),
}
"""Words that mean nothing where a coupling or springs of this kind are fitted."""
MEANT = (
    "on brackets that come off", "torsion constant", "torsion of thin plates", "rubber tires", "rubber tyres",
    "rubber, paint", "that a ball would not", "whether neck or tongue counts", "gooseneck or fifth wheel",
    "coupler load of 12 to 25 %", "15 % on a gooseneck or pin",
)
"""Where such a word is meant: brackets of lamps, other torsion and rubber, one comparison, four rules of law."""


def spoken(spec: Spec, levers: str = ALL_LEVERS) -> str:
    """The text of every document and sheet of the owner's packet, a line for each block of it."""
    of = marked(spec)[0]
    model = resolve(of, data())
    desk = cut(model, calculate(model, data(), levers=levers), data(), "owner", "0123456789ab")
    sheets, lacking = drawn(desk)
    pages = site(assemble(desk, sheets, Show(of.project.units, "USD"), lacking))
    made = "\n".join(body.decode() for name, body in pages.items() if name.endswith((".html", ".svg")))
    made = re.sub(r"<(style|title)\b.*?</\1>", "", made, flags=re.DOTALL)
    return html.unescape(re.sub(r"<[^>]+>", "\n", re.sub(r"</?(?:b|i|em|strong|span|sub|sup)\b[^>]*>", "", made)))


def starter(coupling: str, folder: Path) -> Spec:
    new_folder(folder / coupling, coupling, "us")
    return read_spec(folder / coupling)


def fitted(coupling: str, springs: str, folder: Path) -> Spec:
    """The starter of a coupling on the springs of the gooseneck's or the ball's starter."""
    lender = starter("ball" if springs == "leaf" else "gooseneck", folder / "springs")
    spec, suspension = starter(coupling, folder / "own"), lender.trailer.running_gear.suspension
    gear = spec.trailer.running_gear.model_copy(update={"suspension": suspension})
    return replace(spec, trailer=spec.trailer.model_copy(update={"running_gear": gear}))


def foreign(spec: Spec, levers: str = ALL_LEVERS) -> list[str]:
    """Every text of the packet with a word of another kind."""
    kinds = (spec.trailer.coupling.type, spec.trailer.running_gear.suspension.type)
    words = "|".join(re.escape(w) for k in kinds for w in FOREIGN[k])
    # An id such as neck.coupler or frame.neck_root is no word; it means the same for all designs.
    found = re.compile(rf"(?<![\w.-])(?:{words})(?![\w-]|\.\w)", re.IGNORECASE)
    said = (line for line in spoken(spec, levers).split("\n") if not any(m in line.lower() for m in MEANT))
    return sorted({re.sub(r"\b\w+\.coupler\b", "", line).strip() for line in said
                   if found.search(re.sub(r"\b\w+\.coupler\b|\bcoupler\.\w+", "", line))})


@pytest.mark.parametrize("name", DESIGNS)
def test_a_design_is_told_in_the_words_of_its_coupling_and_springs(name: str) -> None:
    # The ways out of a first sketch are looked for over minutes; those of the others speak the same sentences.
    assert foreign(read_spec(SPECS / name), levers=NO_LEVERS if name == "first-sketch" else ALL_LEVERS) == []


@pytest.mark.parametrize("springs", ["leaf", "torsion"])
@pytest.mark.parametrize("coupling", STARTERS)
def test_a_starter_is_told_in_its_own_words_on_either_springs(coupling: str, springs: str, tmp_path: Path) -> None:
    spec = fitted(coupling, springs, tmp_path)
    assert spec.trailer.running_gear.suspension.type == springs
    assert foreign(spec) == []


def test_the_search_finds_foreign_words() -> None:
    """It can fail: the texts of a ball read by the list of a gooseneck hold words it must not."""
    said = spoken(read_spec(SPECS / "wren")).lower()
    assert re.search(r"(?<![\w.-])tongue(?![\w-]|\.\w)", said)
    assert re.search(r"(?<![\w.-])hangers(?![\w-]|\.\w)", said)
