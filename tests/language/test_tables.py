"""Rows of tables that answers put into words: their English text in the catalogue is the row's."""

import pytest

from roundwright import reference
from roundwright.language import words_of

ENGLISH = words_of("en-US")


@pytest.mark.parametrize("row", reference.cautions(), ids=lambda row: row.code)
def test_a_caution_reads_as_its_row(row):
    """A caution of an answer is the text of `/v1/standards/cautions`."""
    assert row.text == ENGLISH.say(f"caution.{row.code}")


@pytest.mark.parametrize(("name", "row"), reference.tail_rules().items())
def test_a_rule_for_the_tail_reads_as_its_row(name, row):
    """A rule for the tail is the text of `/v1/standards/tails`."""
    assert row.rule == ENGLISH.say(f"tail.{name}")


@pytest.mark.parametrize(("name", "row"), reference.depth_rules().items())
def test_a_rule_for_the_depth_reads_as_its_row(name, row):
    """A rule for the depth is the text of `/v1/standards/depth`."""
    assert row.rule == ENGLISH.say(f"depth.rule.{name}")


@pytest.mark.parametrize(("name", "row"), reference.silhouettes().items())
def test_a_silhouette_reads_as_its_row(name, row):
    """A silhouette is named and described as in `/v1/standards/silhouettes`."""
    assert ENGLISH.say(f"depth.silhouette.{name}") == f"{name} that {row.about}"


def test_rules_of_practice_read_as_their_rows():
    """Ease, garter and yarn held double, as in their tables."""
    practices = reference.practices()

    assert reference.ease_rules()["usual"].rule in ENGLISH.say("ease.basis")
    assert practices["garter-rows"].rule in ENGLISH.say("hat.garter_basis")
    assert practices["held-double"].rule.lower() in ENGLISH.say("gauge.held_double_basis").lower()
