"""Settings come from the environment, all of them, once, and a wrong one is said at the start."""

import re
import subprocess
import sys

import msgspec
import pytest

from roundwright.web.settings import Settings, SettingsError, read, variable_of


def test_nothing_need_be_set():
    """An empty environment gives the defaults, and other variables do not matter."""
    assert Settings() == read({}) == read({"HOME": "/", "PORT": "1"})


def test_each_setting_is_read():
    """Each field is read from the variable of its name."""
    environment = {
        "ROUNDWRIGHT_HOST": "0.0.0.0",
        "ROUNDWRIGHT_PORT": "80",
        "ROUNDWRIGHT_ACCESS_LOG": "true",
        "ROUNDWRIGHT_METRICS": "0",
        "ROUNDWRIGHT_CORS_ORIGINS": "https://a.example  https://b.example",
    }

    assert Settings(
        host="0.0.0.0",
        port=80,
        access_log=True,
        metrics=False,
        cors_origins=("https://a.example", "https://b.example"),
    ) == read(environment)


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("on", True),
        ("yes", True),
        ("True", True),
        ("1", True),
        ("OFF", False),
        ("no", False),
        ("false", False),
    ],
)
def test_switches_take_the_usual_words(word, value):
    """On and off, yes and no, true and false, in any letters."""
    assert value is read({"ROUNDWRIGHT_ACCESS_LOG": word}).access_log


def test_flags_win_over_the_environment():
    """What is typed is meant."""
    settings = read({"ROUNDWRIGHT_PORT": "80", "ROUNDWRIGHT_WARM": "yes"}, {"port": "81"})

    assert Settings(port=81, warm=True) == settings


@pytest.mark.parametrize(
    "origin",
    ["*", "https://shop.example", "http://localhost:3000", "https://[::1]:8443", "capacitor://localhost"],
)
def test_an_origin_is_as_browsers_send_it(origin):
    """Scheme, host and a port other than the usual (RFC 6454, 6.2)."""
    assert (origin,) == read({"ROUNDWRIGHT_CORS_ORIGINS": origin}).cors_origins


@pytest.mark.parametrize(
    "origin",
    [
        "https://shop.example/", "https://Shop.example", "shop.example", "https://shop.example:443",
        "http://shop.example:80", "null", "https://*.shop.example", "https://shop.example, https://b.example",
    ],
)  # fmt: skip
def test_what_no_browser_sends_is_no_origin(origin):
    """It would never match; the error shows it and an origin as it should be."""
    with pytest.raises(SettingsError, match=re.escape(repr(origin)) + r".*`https://shop\.example`"):
        read({"ROUNDWRIGHT_CORS_ORIGINS": origin})


def test_an_unknown_setting_is_told_the_nearest():
    """A slip of the finger is the likeliest cause."""
    with pytest.raises(SettingsError, match=r"ROUNDWRIGHT_PROT .*Did you mean ROUNDWRIGHT_PORT"):
        read({"ROUNDWRIGHT_PROT": "80"})


def test_a_key_given_by_mistake_is_not_shown():
    """An error may stand in a log, where a key must not."""
    with pytest.raises(SettingsError) as error:
        read({"ROUNDWRIGHT_KEYS": "the-key-itself"})

    assert "the-key-itself" not in str(error.value)


@pytest.mark.parametrize(
    ("variable", "value"),
    [
        ("ROUNDWRIGHT_PROT", "80"),
        ("ROUNDWRIGHT_PORT", "eighty"),
        ("ROUNDWRIGHT_PORT", "65536"),
        ("ROUNDWRIGHT_PORT", ""),
        ("ROUNDWRIGHT_WORKERS", "2"),
        ("ROUNDWRIGHT_RATE_PER_MINUTE", "60"),
        ("ROUNDWRIGHT_KEYS", ""),
        ("ROUNDWRIGHT_KEYS", " "),
        ("ROUNDWRIGHT_KEYS_FILE", ""),
        ("ROUNDWRIGHT_BODY_BYTES", "10"),
        ("ROUNDWRIGHT_ACCESS_LOG", "perhaps"),
    ],
)
def test_a_wrong_setting_is_refused(variable, value):
    """A name that is no setting and a value that is none of its values are both refused, by name."""
    with pytest.raises(SettingsError, match="(?i)" + variable.removeprefix("ROUNDWRIGHT_")):
        read({variable: value})


def test_each_setting_says_what_it_is():
    """Each setting is described, and every number among them is bounded."""
    schema = msgspec.json.schema(Settings)["$defs"]["Settings"]["properties"]
    for field, described in schema.items():
        assert described["description"].endswith("."), variable_of(field)
        assert described["type"] != "integer" or {"minimum", "maximum"} <= set(described), variable_of(field)


WORDS_READ = """
from roundwright.web.app import create
from roundwright.web.settings import Settings
from roundwright.wording.reading.vocabulary import vocabulary

application = create(Settings(warm={warm}))
print(vocabulary.cache_info().currsize)
for stop in application.app.on_shutdown:
    stop()
"""
"""How many languages' words a process has read before its first request."""


@pytest.mark.parametrize(("warm", "languages"), [(True, 1), (False, 0)])
def test_a_warm_process_has_read_its_words_before_the_first_pattern(warm, languages):
    """What a first pattern needs is there beforehand where the setting says so; elsewhere the start does without."""
    command = [sys.executable, "-c", WORDS_READ.format(warm=warm)]
    output = subprocess.run(command, capture_output=True, check=True, text=True).stdout
    assert int(output) == languages
