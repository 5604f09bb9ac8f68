#!/bin/sh
# The hat of a head: what to cast on, the needles, the rounds of the crown and the balls to buy; its picture beside it.
#   sh hat.sh HEAD_CM [PICTURE.svg]
# Needs curl and jq. HATS_SERVICE is the address of Roundwright, HATS_KEY the key it asks for, if any.
set -eu
service=${HATS_SERVICE:-http://127.0.0.1:8181}
head=${1:?"the head in centimetres is missing, as in: sh hat.sh 55.5"}

answer=$(mktemp)
trap 'rm -f "$answer"' EXIT

# ask PATH [ARGUMENTS OF CURL]: print the answer; of a problem its detail and what would work instead.
ask() {
    path=$1
    shift
    status=$(curl --silent --show-error --max-time 10 --retry 2 --output "$answer" --write-out '%{http_code}' \
        ${HATS_KEY:+--header "Authorization: Bearer $HATS_KEY"} "$@" "$service$path")
    if [ "$status" -ge 400 ]; then
        jq --raw-output '.detail, (.nearest // empty | "The nearest that works: \(.)")' "$answer" >&2
        return 1
    fi
    cat "$answer"
}

body=$(jq --null-input --arg head "$head" '{
    gauge: {stitches: 20, rows: 28},
    sizes: [{head: {value: ($head | tonumber), unit: "cm"}}],
    yarn: {name: "Quillhaven Wether", mass: {value: 100, unit: "g"}, length: {value: 210, unit: "m"}},
    crown: {style: "wedge", sections: 8},
    needles: 4
}')
hat=$(ask /v1/hats --header 'Content-Type: application/json' --data "$body")

printf '%s\n' "$hat" | jq --raw-output '.sizes[0] |
    "Cast on \(.cast_on.stitches) stitches: \(.split.split | map(tostring) | join(", ")) on the needles.",
    (.crown.rounds[] | "Round \(.number): \(.text) (\(.after))"),
    "Buy \(.yarn.to_buy.balls) of Quillhaven Wether."'

if [ $# -gt 1 ]; then
    ask "$(printf '%s\n' "$hat" | jq --raw-output '.sizes[0].drawing')" >"$2"
    echo "The picture is in $2."
fi
