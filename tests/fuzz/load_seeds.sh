#!/bin/sh
# load_seeds.sh UNIT_FOLDER SEEDS_FOLDER: packs a unit for fuzz_load, each file
# after a line "%%NAME". One seed of the two texts alone, one with a few
# models, and one with them all.
set -eu
unit=$1
seeds=$2
mkdir -p "$seeds"

put() { # put SEED NAME…
  seed=$1
  shift
  : > "$seed"
  for name in "$@"; do
    printf '%%%%%s\n' "$name" >> "$seed"
    cat "$unit/$name" >> "$seed"
    printf '\n' >> "$seed"
  done
}

cd "$unit" && models=$(find parts -name '*.glb' | sort) && cd - > /dev/null
few=$(printf '%s\n' "$models" | head -n 3)
# shellcheck disable=SC2086 # one word for each file
put "$seeds/texts" unit.toml sequence.toml
# shellcheck disable=SC2086
put "$seeds/few" unit.toml sequence.toml $few
# shellcheck disable=SC2086
put "$seeds/whole" unit.toml sequence.toml $models
