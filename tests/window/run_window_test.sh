#!/usr/bin/env bash
# Drives the real program through the demo's whole sequence by real key presses,
# on a virtual display of its own.
#   tests/window/run_window_test.sh LUGLINE UNIT COMPARE
# LUGLINE: the program. UNIT: a unit's folder. COMPARE: compare_pictures. Ends with 77 where the tools for
# it are not installed: CTest then counts it as skipped.
set -uo pipefail
lugline="$1"
unit="$2"
compare="$3"
root="$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)"

for tool in Xvfb xdotool cmake; do
  if ! command -v "$tool" >/dev/null; then
    echo "$tool is not installed: the window is not tested"
    exit 77
  fi
done

work="$(mktemp -d)"
server=""
program=""
cleanup() {
  for pid in $program $server; do
    kill -9 "$pid" 2>/dev/null
    wait "$pid" 2>/dev/null
  done
  rm -rf "$work"
}
trap cleanup EXIT

export HOME="$work/home" XDG_STATE_HOME="$work/state" XDG_CONFIG_HOME="$work/config"
tally_file="$work/tally.json"
mkdir -p "$HOME"
failures=0

say() { echo "== $*"; }
fail() {
  echo "FAILED: $*"
  failures=$((failures + 1))
}
check() { # check WORDS COMMAND…
  local words="$1"
  shift
  if "$@"; then echo "   $words"; else fail "$words"; fi
}

# The display: a small one, since it is drawn in software.
mkfifo "$work/display"
Xvfb -displayfd 3 -screen 0 800x600x24 -nolisten tcp 3>"$work/display" >/dev/null 2>&1 &
server=$!
read -r number <"$work/display" || {
  echo "Xvfb does not start"
  exit 77
}
export DISPLAY=":$number"

tally() { # tally FIELD: its value, of the last time the window came to rest
  sed -n "s/.*\"$1\": \([^,}]*\).*/\1/p" "$tally_file" 2>/dev/null
}
wait_until() { # wait_until SECONDS COMMAND…
  local left=$(($1 * 20))
  shift
  until "$@"; do
    left=$((left - 1))
    if [[ $left -le 0 ]]; then return 1; fi
    sleep 0.05
  done
}
is() { [[ "$(tally "$1")" == "$2" ]]; }
more_frames_than() { local now; now="$(tally frames)"; [[ -n "$now" && "$now" -gt "$1" ]]; }

start() { # start ARGUMENTS…
  rm -f "$tally_file"
  "$lugline" "$@" --no-motion --tally "$tally_file" >"$work/out" 2>&1 &
  program=$!
  wait_until 60 test -s "$tally_file" || {
    fail "the window does not come to rest: $(cat "$work/out")"
    return 1
  }
}
stop() { # stop SIGNAL
  kill "-$1" "$program" 2>/dev/null
  wait "$program" 2>/dev/null
  program=""
}

key() { # key NAME: held for a tenth of a second, then until the window rests
  local frames
  frames="$(tally frames)"
  xdotool keydown "$1"
  sleep 0.1
  xdotool keyup "$1"
  wait_until 20 more_frames_than "${frames:-0}" || fail "nothing is drawn after $1"
  # The letting go of the key draws as well.
  wait_until 20 settled
}
settled() {
  local before
  before="$(tally frames)"
  sleep 0.15
  [[ "$(tally frames)" == "$before" ]]
}
processor_time() { awk '{print $14 + $15}' "/proc/$program/stat"; }
stood_at() { # the step of the last "stand at" in the log
  sed -n 's/.*"action":"stand at","step":"\([^"]*\)".*/\1/p' "$log" | tail -1
}

"$lugline" check "$unit" --json >"$work/check.json" 2>/dev/null
cmake -D CHECK="$work/check.json" -D STEPS="$work/steps" -P "$root/viewer/steps.cmake"
mapfile -t steps <"$work/steps"
last=$((${#steps[@]} - 1))
half=$((last / 2))
log="$work/log.jsonl"

say "the window opens at the first step of ${#steps[@]}"
start "$unit" --log "$log" || exit 1
wait_until 30 is open true || fail "the unit is not open"
wait_until 20 settled
check "it stands at the first step" is step 0

say "with nothing moving, nothing is drawn and the processor is idle"
frames="$(tally frames)"
spent="$(processor_time)"
sleep 2
check "no frame in two seconds" is frames "$frames"
check "no processor time in two seconds" test "$(($(processor_time) - spent))" -le 1

say "Page Down goes through the first half"
presses=0
while [[ "$(tally step)" -lt "$half" && $presses -lt $((4 * ${#steps[@]})) ]]; do
  key Next
  presses=$((presses + 1))
done
check "it stands at step $half" is step "$half"

say "a figure typed is on disk, a key at a time"
key m
for character in 1 period 5; do
  key "$character"
done
wait_until 10 grep -q '"thickness_mm":1.5' "$log" || fail "the reading is not in the log"
check "one reading is in use" is readings 1
key Escape
key ctrl+z
check "undone, none is" is readings 0

say "killed in the middle, it opens again at the same step"
key Next
step="$(tally step)"
moment="$(tally moment)"
lines="$(wc -l <"$log")"
stop KILL
check "the log has what was done" test "$(wc -l <"$log")" -eq "$lines"
start "$unit" --log "$log" || exit 1
wait_until 30 is open true
wait_until 20 settled
check "the same step" is step "$step"
check "the same moment" is moment "$moment"
check "as the log says" test "$(stood_at)" == "${steps[$step]}"

say "Page Down goes through the rest"
while [[ "$(tally step)" -lt "$last" && $presses -lt $((4 * ${#steps[@]})) ]]; do
  key Next
  presses=$((presses + 1))
done
key Next
check "it stands at the last step" is step "$last"
for id in "${steps[@]}"; do
  grep -qF "\"action\":\"stand at\",\"step\":\"$id\"" "$log" || [[ "$id" == "${steps[0]}" ]] ||
    fail "step $id is not in the log"
done
echo "   every step is in the log"

say "each panel opens and is left; the view, the unit and the scale change"
for name in F1 l F2 m; do
  key "$name"
  key Escape
done
for name in i c c x x Prior Home End ctrl+equal ctrl+minus; do
  key "$name"
done
check "it still runs" kill -0 "$program"

say "each view of figures opens by its key, and a digit chooses in it"
shows() { # shows WORDS: the open view and what is chosen in it
  [[ "$(sed -n 's/.*"figures": "\([^"]*\)".*/\1/p' "$tally_file")" == $1 ]]
}
lines="$(wc -l <"$log")"
stood="$(tally step)"
if grep -q '^\[\[range\]\]' "$unit/unit.toml"; then
  for view in p:pack e:play g:train a:air; do
    key "${view%%:*}"
    check "${view#*:}: it opens" shows "${view#*:}*"
    key 1
    check "${view#*:}: the first is chosen" shows "${view#*:} ?*"
  done
  # The watch runs and stops, and the window comes to rest again.
  xdotool key t
  sleep 1
  key t
  wait_until 10 settled || fail "the window does not rest after the watch"
  key Next
  check "Page Down brings the bench back" shows ""
  check "at the step where it stood" is step "$stood"
  check "and nothing of it is in the log" test "$(wc -l <"$log")" -eq "$lines"
fi

say "F12 saves what is seen"
key F12
wait_until 10 compgen -G "$HOME/*.png" >/dev/null || fail "no picture is saved"
picture="$(compgen -G "$HOME/*.png" | head -1)"
check "it is a picture of some size" test "$(stat -c %s "$picture")" -gt 20000

say "the window shows what the draw command draws"
# In the window there are also buttons and a hint: a mean difference of 1 to 2 of
# 255. Another step's picture differs by 20 and more.
differ() { "$compare" "$1" "$2" 2>/dev/null || echo 999; }
below() { awk -v a="$1" -v b="$2" 'BEGIN { exit !(a < b) }'; }
stop TERM
for id in "case backing plate" "drum in"; do
  [[ " ${steps[*]} " == *" $id "* ]] || continue
  shots="$work/shots-${id// /-}"
  mkdir -p "$shots"
  echo "{\"schema\":1,\"action\":\"stand at\",\"step\":\"$id\",\"done\":false}" >"$shots/log.jsonl"
  XDG_CONFIG_HOME="$shots" start "$unit" --log "$shots/log.jsonl" --pictures "$shots" || exit 1
  wait_until 30 is open true
  wait_until 20 settled
  key F12
  wait_until 10 compgen -G "$shots/*.png" >/dev/null || fail "no picture of $id is saved"
  shot="$(compgen -G "$shots/*.png" | head -1)"
  stop TERM
  "$lugline" draw "$unit" -o "$shots/drawn" --step "$id" --size 800x600
  "$lugline" draw "$unit" -o "$shots/another" --step "${steps[0]}" --size 800x600
  check "$id: the same picture" below "$(differ "$shot" "$shots/drawn")" 4
  check "$id: another step's is another" below 10 "$(differ "$shot" "$shots/another")"
done
start "$unit" --log "$log" || exit 1
wait_until 30 is open true
wait_until 20 settled

say "closing needs no question"
xdotool keydown ctrl+q
sleep 0.1
xdotool keyup ctrl+q 2>/dev/null
ended() { ! kill -0 "$program" 2>/dev/null; }
wait_until 10 ended || fail "it does not close"
wait "$program"
check "and ends well" test "$?" -eq 0
program=""

say "a unit that does not load shows why, and R tries again"
mkdir "$work/unit"
start "$work/unit" --log "$work/other.jsonl"
wait_until 20 settled
check "no unit is open" is open false
cp -r "$unit"/. "$work/unit"
key r
wait_until 30 is open true || fail "it is not open after R"
stop TERM

say "a log that cannot be written stops nobody"
start "$unit" --log /dev/null/log.jsonl
wait_until 30 is open true
wait_until 20 settled
key Next
key Next
check "the work goes on" test "$(tally step)" -ge 1
stop TERM

say "without a display it says so, and what works"
if DISPLAY= WAYLAND_DISPLAY= "$lugline" "$unit" >"$work/out" 2>&1; then
  fail "it ends as if all were well"
fi
check "it names the commands that work" grep -q "check" "$work/out"

if [[ $failures -gt 0 ]]; then
  echo "$failures failed"
  exit 1
fi
say "all is well after $presses presses of Page Down"
