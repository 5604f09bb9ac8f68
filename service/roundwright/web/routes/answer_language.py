"""The language of an answer: from the request, else from `Accept-Language`; and the answer as JSON in that language."""

from collections.abc import Callable
from functools import cache
from typing import Any

import msgspec

from roundwright.knitting.answers import Notice
from roundwright.language import ENGLISH, Words, language_of, say, supported, words_of


def in_its_language(request: Any, preferred: str) -> tuple[Any, Words]:
    """The request with the language of its answer, None for `en-US`; and the words of that language.

    `preferred` is the language where the request names none.

    A `language` that is of a text in the request stays as it is; one of a picture may be a language that only the keys
    of pictures are in. `terms` decides between US and UK English where no
    language is requested, and follows `en-GB`.
    """
    in_pictures = getattr(request, "language_is_of_picture", False)
    code = language_of(request.language, preferred, in_pictures=in_pictures)
    uk = getattr(request, "terms", None) == "uk"
    if code == ENGLISH and uk and request.language is None:
        code = "en-GB"
    language = None if code == ENGLISH else code
    if language != request.language and not getattr(request, "language_is_of_text", False):
        request = msgspec.structs.replace(request, language=language)
    if code == "en-GB" and not uk and hasattr(request, "terms"):
        request = msgspec.structs.replace(request, terms="uk")
    return request, words_of(code, in_pictures=in_pictures)


def with_language_warning(answer: Any, requested: str | None) -> Any:
    """The answer, with a warning where the requested language is not there."""
    if requested is None or supported(requested) is not None or not hasattr(answer, "warnings"):
        return answer
    notice = Notice(
        code="language_unknown", message=say("language.unknown", language=requested), pointer="#/language"
    )
    return msgspec.structs.replace(answer, warnings=(*answer.warnings, notice))


def encode_answer(answer: Any, words: Words) -> bytes:
    """The answer as JSON, its messages in the words of a language."""
    return _encode(words)(answer)


@cache
def _encode(words: Words) -> Callable[[Any], bytes]:
    return msgspec.json.Encoder(enc_hook=words.render).encode
