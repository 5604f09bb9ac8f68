# /// script
# requires-python = ">=3.11"
# dependencies = ["httpx>=0.28"]
# ///
"""Which of a maker's sizes fits a child, from birth to the fifth birthday.

python sizes.py --sex girl "Lamb 34" "Teg 38" "Shearling 43"

Sizes are a name and the circumference of the hat in centimetres. HATS_SERVICE is the address of Roundwright, HATS_KEY
the key it asks for, if any.
"""

import argparse
import os
import sys
from collections.abc import Iterator

import httpx

MONTHS = range(0, 61, 3)


def offered(text: str) -> dict:
    """A size as the service takes it, from a name and a circumference."""
    label, _, value = text.rpartition(" ")
    try:
        return {"label": label, "circumference": {"value": float(value), "unit": "cm"}}
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no size; one looks like 'Teg 38'") from None


def by_month(service: httpx.Client, sizes: list[dict], sex: str | None) -> Iterator[tuple[int, dict]]:
    """The recommendation for each age, in months."""
    for age in MONTHS:
        answer = service.post("/v1/sizing/recommend", json={"age_months": age, "sex": sex, "offered": sizes})
        if answer.is_client_error:
            problem = answer.json()
            raise SystemExit(f"{problem['detail']} {problem.get('nearest', '')}".strip())
        yield age, answer.raise_for_status().json()


def main() -> None:
    """Read the arguments, and print a line for each age."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("sizes", nargs="+", type=offered)
    parser.add_argument("--sex", choices=["girl", "boy"])
    arguments = parser.parse_args()
    key = os.environ.get("HATS_KEY")
    with httpx.Client(
        base_url=os.environ.get("HATS_SERVICE", "http://127.0.0.1:8181"),
        headers={"Authorization": f"Bearer {key}"} if key else {},
        transport=httpx.HTTPTransport(retries=2),
    ) as service:
        for age, fit in by_month(service, arguments.sizes, arguments.sex):
            head = fit["head"]["median"]
            print(f"{age:3} months  {head['value']:5.1f} {head['unit']}  {fit['choose'] or '-'}")


if __name__ == "__main__":
    try:
        main()
    except httpx.HTTPError as error:
        sys.exit(f"The service did not answer as it should: {error}")
