#!/usr/bin/env bash
# Makes the pictures of the README, of the program that the first argument names: a chart and the first side of a handout.
# A test holds the chart and the handout's text against what the program writes today. Wants chromium and ImageMagick.
set -euo pipefail
program=$(realpath "$1")
cd "$(dirname "$0")"
mkdir -p pictures

"$program" plan quarter-acre.toml --today 2026-10-24 --base office.toml --html pictures/handout.html --force >/dev/null
"$program" plan quarter-acre.toml --today 2026-10-24 --all --html pictures/whole.html --force >/dev/null
python3 chart_of_page.py pictures/whole.html "Temperature of its core" >pictures/temperature.svg
rm pictures/whole.html

chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --window-size=800,1400 --screenshot=pictures/handout.png \
  "file://$PWD/pictures/handout.html" >/dev/null 2>&1
convert pictures/handout.png -gravity north -crop 800x760+0+0 +repage -colorspace gray -strip pictures/handout.png
