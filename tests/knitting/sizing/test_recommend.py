"""Which of the offered sizes fits."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.knitting.answers import Impossible
from roundwright.knitting.quantities import Length
from roundwright.knitting.sizing.recommend import OfferedSize, RecommendRequest, recommend


def sizes(*circumferences_cm):
    return tuple(OfferedSize(label=f"{cm:g}", circumference=Length(cm, "cm")) for cm in circumferences_cm)


SMALL, MIDDLE, LARGE = 32, 37, 43
THREE = sizes(SMALL, MIDDLE, LARGE)


@given(st.floats(0, 60), st.sampled_from([None, "girl", "boy"]), st.floats(5, 40))
def test_the_heads_are_shared_out(age, sex, stretch):
    """Too large, fitting and too small make all heads; a hat that stretches more fits no fewer."""
    answer = recommend(RecommendRequest(age_months=age, sex=sex, offered=THREE, stretch_percent=stretch))
    more = recommend(RecommendRequest(age_months=age, sex=sex, offered=THREE, stretch_percent=stretch + 5))

    for fit, looser in zip(answer.sizes, more.sizes, strict=True):
        assert fit.share + fit.too_large_share + fit.too_small_share == pytest.approx(1, abs=0.002)
        assert looser.share >= fit.share


@given(st.floats(0, 48), st.floats(0, 12))
def test_the_chosen_size_fits_most_heads(age, wait):
    """No other size fits more heads when the hat is worn."""
    answer = recommend(RecommendRequest(age_months=age, wear_in_months=wait, offered=THREE))
    shares = {fit.label: fit.share for fit in answer.sizes}

    assert answer.choose is None or shares[answer.choose] == max(shares.values())


def test_later_is_a_larger_size():
    """A newborn now, and the same child in ten months."""
    now = recommend(RecommendRequest(age_months=0, offered=THREE))
    later = recommend(RecommendRequest(age_months=0, wear_in_months=10, offered=THREE))

    assert (now.choose, later.choose) == ("32", "43")
    assert later.now == now.head


def test_of_equals_the_one_midway():
    """A measured head of 44 cm fits 37 (to 44.4), 40 and 43 cm: stretched 19, 10 and 2 %; 10 % is midway."""
    answer = recommend(RecommendRequest(head=Length(44, "cm"), offered=sizes(37, 43, 40)))

    assert [fit.share for fit in answer.sizes] == [1, 1, 1]
    assert answer.choose == "40"


def test_a_measured_head_keeps_its_centile():
    """A head on the 97th centile of girls at birth (36.1 cm by WHO's M and S) is on it at a year."""
    z97 = 1.8807936
    answer = recommend(
        RecommendRequest(
            age_months=0,
            sex="girl",
            head=Length(33.8787 * (1 + z97 * 0.03496), "cm"),
            wear_in_months=12,
            offered=THREE,
        )
    )

    assert answer.centile == 97.0
    assert answer.head.own.value == pytest.approx(answer.head.p97.value, rel=1e-4)
    assert answer.now.own.value == pytest.approx(answer.now.p97.value, rel=1e-4)


def test_a_head_alone_is_all_that_is_known():
    """Without an age there is no spread, no growth, and nothing is outgrown."""
    answer = recommend(RecommendRequest(head=Length(57, "cm"), offered=sizes(50, 60)))

    assert answer.now == answer.head
    assert answer.head.median == answer.head.p3 == answer.head.own == Length(57, "cm")
    assert (answer.choose, answer.centile, answer.outgrown_at_months) == ("50", None, None)


def test_it_names_its_standards_and_says_what_it_is():
    """A preterm baby now and in eight months: two standards, both named; a fit aid; cautions for a baby."""
    answer = recommend(
        RecommendRequest(gestation_weeks=31, postmenstrual_weeks=34, wear_in_months=8, offered=THREE)
    )

    assert "INTERGROWTH-21st postnatal growth, 34 weeks" in answer.now.standard
    assert "WHO" in answer.head.standard
    assert "from term" in answer.head.standard
    assert [notice.code for notice in answer.warnings[:2]] == ["fit_aid", "standards_meet"]
    assert "sleep" in {caution.code for caution in answer.cautions}
    assert "INTERGROWTH" in answer.basis[0].source


def test_an_age_in_years_is_the_age_in_months():
    """Eight and a half years are 102 months, and the answer is the same to the letter."""
    years = recommend(RecommendRequest(age_years=8.5, sex="boy", wear_in_months=6, offered=sizes(46, 50)))

    assert years == recommend(
        RecommendRequest(age_months=102, sex="boy", wear_in_months=6, offered=sizes(46, 50))
    )
    assert "Netherlands 1997" in years.head.standard
    assert "9 years" in years.head.standard


def test_growth_over_the_step_at_five_years_says_so():
    """From four and a half to five and a half: WHO, then Netherlands 1997, and part of the difference is no growth."""
    answer = recommend(RecommendRequest(age_years=4.5, wear_in_months=12, offered=sizes(46, 50)))
    steps = [notice.message for notice in answer.warnings if notice.code == "standards_meet"]

    assert "WHO" in answer.now.standard
    assert "Netherlands 1997" in answer.head.standard
    assert any("0.76 cm (boys) and 0.66 cm (girls)" in message for message in steps)


def test_grown_ups_get_no_cautions_and_outgrow_nothing():
    """A grown-up's hat is no child's."""
    answer = recommend(RecommendRequest(adult="woman", offered=sizes(46, 50), wear_in_months=12))

    assert answer.cautions == ()
    assert answer.outgrown_at_months is None
    assert answer.now == answer.head


def test_a_size_for_nobody_is_not_chosen():
    """A newborn fits neither a doll's hat nor a grown-up's; the message says what would do."""
    answer = recommend(RecommendRequest(age_months=0, offered=sizes(15, 55)))

    assert answer.choose is None
    assert answer.warnings[-1].code == "none_fits"
    assert "31.1 cm" in answer.warnings[-1].message  # 34.17 cm / 1.10: arithmetic


def test_an_unusual_head_is_asked_about():
    """A newborn's head of 45 cm is a slip of the tape or of the unit."""
    answer = recommend(RecommendRequest(age_months=0, head=Length(45, "cm"), offered=THREE))

    assert "unusual_head" in {notice.code for notice in answer.warnings}


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({}, "#"),
        ({"age_months": 1, "gestation_weeks": 30}, "#/gestation_weeks"),
        ({"age_months": 1, "adult": "man"}, "#/adult"),
        ({"adult": "man", "sex": "boy"}, "#/sex"),
        ({"head": Length(40, "cm"), "sex": "boy"}, "#/sex"),
        ({"head": Length(40, "cm"), "wear_in_months": 1}, "#/wear_in_months"),
        ({"head": Length(40, "m"), "age_months": 1}, "#/head/value"),
        ({"age_months": 6, "age_years": 0.5}, "#/age_years"),
        ({"age_years": 20.5, "wear_in_months": 7}, "#/wear_in_months"),
        ({"age_months": 1, "postmenstrual_weeks": 40}, "#/postmenstrual_weeks"),
        ({"gestation_weeks": 34, "postmenstrual_weeks": 33}, "#/postmenstrual_weeks"),
        ({"age_months": 1, "snug_percent": 30}, "#/snug_percent"),
        ({"age_months": 1, "offered": sizes(30, 1)}, "#/offered/1/circumference/value"),
        ({"age_months": 1, "offered": sizes(300)}, "#/offered/0/circumference/value"),
        ({"age_months": 1, "offered": sizes(30, 31, 30)}, "#/offered/2/label"),
    ],
)
def test_what_cannot_be_recommended_is_refused_with_what_can(fields, pointer):
    """The error names the field at fault and the nearest thing that works."""
    with pytest.raises(Impossible) as refused:
        recommend(RecommendRequest(**{"offered": THREE, **fields}))

    assert refused.value.pointer == pointer
    assert refused.value.nearest


@given(
    st.builds(
        RecommendRequest,
        gestation_weeks=st.floats(22, 42),
        postmenstrual_weeks=st.none() | st.floats(22, 144),
        wear_in_months=st.floats(0, 60),
        stretch_percent=st.floats(0, 100),
        head=st.none() | st.builds(Length, st.floats(4, 100), st.just("cm")),
        offered=st.floats(0.001, 1e6).map(sizes),
    )
)
def test_every_request_is_answered_or_refused(request):
    """At every corner of the bounds there is an answer in finite numbers, or a refusal with what works."""
    try:
        answer = recommend(request)
    except Impossible as refusal:
        nearest = refusal.nearest
    else:
        nearest = "none needed"
        assert 0 <= answer.sizes[0].share <= 1
        assert answer.head.p3.value < answer.head.p97.value
        assert b"null" not in msgspec.json.encode(
            [(fit.fits_from, fit.stretched_percent) for fit in answer.sizes]
        )

    assert nearest


def test_a_head_in_doubtful_units_is_warned_of():
    """A head of 16 cm without an age: smaller than any baby's, and a toddler's in inches (Craft Yarn Council)."""
    answer = recommend(RecommendRequest(head=Length(16, "cm"), offered=THREE))

    assert "unusual_head" in [notice.code for notice in answer.warnings]


def test_a_hat_may_be_outgrown_in_depth_before_it_is_in_width():
    """The crown to the ear canal is 0.32 of the head at every age (Snyder et al.; ANSUR II): 13.1 cm cover 41 cm.

    Boys' median is 41 cm between 3 months (40.5) and 6 months (43.3, WHO); by its width the hat serves to 45.6 cm.
    """
    offered = OfferedSize(label="hat", circumference=Length(38, "cm"))
    wide = recommend(RecommendRequest(age_months=0, sex="boy", offered=(offered,)))
    offered = OfferedSize(label="hat", circumference=Length(38, "cm"), depth=Length(13.1, "cm"))
    deep = recommend(RecommendRequest(age_months=0, sex="boy", offered=(offered,)))

    assert 3 < deep.sizes[0].outgrown_at_months < 6 < wide.sizes[0].outgrown_at_months < 12
    assert (deep.sizes[0].outgrown_in, wide.sizes[0].outgrown_in) == ("depth", "width")
    assert deep.sizes[0].fits_to.value == pytest.approx(13.1 / 0.32, abs=0.01)
    assert any("depth was not given and is not counted" in basis.rule for basis in wide.basis)


@given(st.floats(2, 60), st.floats(2, 30), st.floats(0, 60))
def test_with_a_depth_the_heads_are_shared_out_too(around, depth, age):
    """Too large, fitting and too small make all heads, however shallow the hat is."""
    offered = OfferedSize(label="hat", circumference=Length(around, "cm"), depth=Length(depth, "cm"))
    (fit,) = recommend(RecommendRequest(age_months=age, offered=(offered,))).sizes

    assert fit.share + fit.too_large_share + fit.too_small_share == pytest.approx(1, abs=0.002)
