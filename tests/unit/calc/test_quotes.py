"""Quotes levelled by hand, and the faults of a quote's file."""

from decimal import Decimal
from pathlib import Path
from types import SimpleNamespace

import pytest
from spec_folder import faults

from generator.calc.topics.quotes import quotes
from generator.spec.models.quotes import Answered, Quote, Received

EVERY = ("coating", "jacks", "spare wheel", "label and serial number", "papers and fees", "freight", "tax")


def quote(id: str, valid_to: str = "2026-12-31", **said: str | int) -> Received:
    answers = tuple(
        Answered.model_construct(what=what.replace("_", " "), said=s if isinstance(s, str) else "priced",
                                 price=None if isinstance(s, str) else Decimal(s))
        for what, s in said.items())
    return Received(id, Quote.model_construct(title=id.title(), received="2026-11-01", valid_to=valid_to, weeks=None,
                                              answers=answers, differs=()))


def model(*received: Received) -> SimpleNamespace:
    return SimpleNamespace(spec=SimpleNamespace(quotes=received, project=SimpleNamespace(date="2026-11-25")))


WHOLE = quote("dear", trailer=18000, coating=2000, jacks=1500, spare_wheel=300, label_and_serial_number="included",
              papers_and_fees=150, freight=600, tax=1700)
HOLED = quote("cheap", trailer=14000, jacks="included", label_and_serial_number="included", freight="excluded",
              valid_to="2026-11-20")


def test_the_cheap_quote_is_filled_with_what_the_other_asks() -> None:
    """14 000 and the dearest price of coating 2 000, spare 300, papers 150, freight 600, tax 1 700."""
    found, checked = quotes(model(WHOLE, HOLED))
    assert found is not None
    dear, cheap = found.heads
    assert (dear.stated, dear.levelled, dear.holes) == (Decimal(24250), Decimal(24250), ())
    assert cheap.stated == Decimal(14000)
    assert cheap.holes == ("coating", "spare wheel", "papers and fees", "freight", "tax")
    assert cheap.levelled == Decimal(18750)
    status = {c.id: c.status for c in checked.checks}
    assert status == {"quote.dear.whole": "pass", "quote.dear.valid": "pass", "quote.cheap.whole": "fail",
                      "quote.cheap.valid": "fail"}
    assert "coating, spare wheel" in next(c for c in checked.checks if c.id == "quote.cheap.whole").about.title


def test_a_hole_nobody_prices_leaves_no_levelled_sum() -> None:
    found, _ = quotes(model(HOLED))
    assert found is not None
    assert found.heads[0].levelled is None
    assert [r.said for r in found.rows][:2] == [(Decimal(14000),), ("not said",)]


def test_no_quotes_no_record() -> None:
    assert quotes(model())[0] is None


@pytest.mark.parametrize(("old", "new", "fault"), [
    ("price: 900", "price: none", "quotes/a.yaml:5: answers.1.price"),
    ("said: priced", "said: included", "quotes/a.yaml:5: answers.1.price: `said: included` with a price"),
    ("{what: trailer, said: priced, price: 900}", "{what: trailer, said: priced}",
     "quotes/a.yaml:5: answers.1.price: `said: priced` without a price"),
    ("valid_to: 2026-12-01", "valid_to: 2026-10-01", "quotes/a.yaml:3: valid_to: before the day it came"),
    ("- {what: trailer", "- {what: freight, said: included}\n  - {what: freight, said: excluded}\n  - {what: trailer",
     "quotes/a.yaml:6: answers.2.what: `freight` is answered twice"),
])
def test_faults_of_a_quote_have_their_place(tmp_path: Path, old: str, new: str, fault: str) -> None:
    text = ("title: A\nreceived: 2026-11-01\nvalid_to: 2026-12-01\nanswers:\n"
            "  - {what: trailer, said: priced, price: 900}\n")
    assert old in text
    found = faults(tmp_path, {"quotes/a.yaml": text.replace(old, new)})
    assert len(found) == 1
    assert found[0].startswith(fault)
