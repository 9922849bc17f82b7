#!/usr/bin/env bash
# A household's first day with the program, by commands only, on an empty folder, with a fixed
# date and a fixed seed, so that its output never changes. The household is invented.
#
#   docs/first_day.sh [PROGRAM] [EMPTY FOLDER]
set -u
program=${1:-target/debug/stillroom}
folder=${2:-$(mktemp -d)}
export STILLROOM_DATA="$folder"

# Prints a command, runs it, and says so when it was refused.
run() {
  printf '\n$ stillroom'
  printf ' %q' "$@"
  printf '\n'
  "$program" --date 2026-08-27 --time 07:30 "$@" 2>&1
  local code=$?
  [ "$code" -eq 0 ] || printf '[refused: exit %s]\n' "$code"
}

echo "# No house yet: the tables can be looked up, but nothing is assumed"
run process --food tomato-juice --pack hot --jar quart --method boiling-water
run process --food tomato-juice --pack hot --jar quart --method boiling-water --elevation 2500ft

echo; echo "# The house"
run house name="A house on the slope" elevation="2500 ft" burners=4 food_mills=1 sinks=1 dryer_trays=4 \
  canners.0.name="big kettle" canners.0.kind=boiling-water canners.0.quarts=7 canners.0.pints=9 canners.0.half_pints=12 \
  pots.0.name="tall pot" pots.0.litres=16 pots.1.name="wide pot" pots.1.litres=9 pots.2.name="small pot" pots.2.litres=4 \
  freezer.litres=300 freezer.free_litres=40 \
  people.0.name=Mara people.0.thu="7 h" people.0.fri="5 h" people.0.sat="6 h" \
  jars.0.jar=quart jars.0.count=16 jars.0.mouth=wide jars.1.jar=pint jars.1.count=24 jars.1.mouth=regular \
  lids_wide=16 lids_regular=30 bags_pint=20 bags_quart=10 \
  ingredients.0.key=bottled-lemon-juice ingredients.0.amount="3 cups" \
  needs.0.product=tomato-juice needs.0.wanted=14 needs.0.unit=quart needs.0.priority=must \
  needs.1.product=freeze-snap-beans needs.1.wanted=20 needs.1.unit=pint-bag needs.1.priority=want \
  needs.2.product=freeze-kale needs.2.wanted=12 needs.2.unit=pint-bag needs.2.priority=must \
  fresh_pounds_a_day=2 animals=hens day_starts=8:00 day_ends=18:00 lunch=12:30-13:00

echo; echo "# Three pickings"
run pick tomato-paste "24 lb" --grade red --temperature 70F --sound-history
run pick snap-bean "9 lb" --grade sound --temperature 70F
run pick kale "2.5 kg" --grade sound --place cold-room --temperature 50F
run counter

echo; echo "# A jar larger than any tested one is refused"
run process --food tomato-juice --pack hot --jar half-gallon --method boiling-water --elevation 2500ft

echo; echo "# The plan"
run plan --accept --iterations 20000 --seed 1

echo; echo "# One batch, cooked"
run batch show 1
run day --make
run batch start 1
run batch finish 1 --out quart=7 --partial "1 1/2 cups" --trimmings "5 lb" --cooked-off "2 lb" --minutes 45 --lifted 7:30 --tick acid --tick bubbles --tick rim --tick covered
run batch seals 1 --failed quart=1 --to fridge

echo; echo "# What stands where, and does it add up"
run stores
run take 1 quart 1
run take 1 quart 2
run undo
run count 1 quart 5
run check
