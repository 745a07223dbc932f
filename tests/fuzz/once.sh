#!/bin/sh
# once.sh PROGRAM (model|load) UNIT: the fuzzer's seeds, made of UNIT, through it once.
set -eu
seeds="$(mktemp -d)"
trap 'rm -rf "$seeds"' EXIT
here="$(dirname "$0")"
case "$2" in
  load) sh "$here/load_seeds.sh" "$3" "$seeds" ;;
  model) python3 "$here/model_seeds.py" "$seeds" "$3"/parts/CS-*.glb "$3"/parts/CC-*.glb ;;
esac
"$1" "$seeds"/*
