#!/usr/bin/env bash
# One study as many jobs on this machine, or on several with GNU parallel's own --sshlogin:
#
#   bash gnu-parallel.sh payload.yaml 64 --flights 1e6
#
# The first word is the scenario, the second says into how many parts, the others go to every part. JOBS says how many
# run at a time (standard: one for each core). Run again after an interrupt, it flies only what is missing.
set -euo pipefail
scenario=$1 parts=$2
shift 2
name=$(basename "$scenario")
name=${name%.*}

part() {
  file=$name-$1-of-$parts.part
  resume=()
  [ ! -e "$file" ] || resume=(--resume "$file")
  fallmargin assess "$scenario" --part "$1/$parts" --threads 1 --quiet "${resume[@]}" "${@:2}"
}
export -f part
export scenario parts name

seq "$parts" | parallel --jobs "${JOBS:-100%}" --halt now,fail=1 part {} "$@"
fallmargin merge "$name"-*-of-"$parts".part
