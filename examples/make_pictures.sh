#!/usr/bin/env bash
# Makes the pictures of the README, of the program that the first argument names: a chart and the first side of a handout.
# A test holds the chart and the handout's text against what the program writes today. Wants chromium, poppler-utils and imagemagick.
set -euo pipefail
program=$(realpath "$1")
cd "$(dirname "$0")"
mkdir -p pictures

"$program" plan quarter-acre.toml --today 2026-10-24 --base office.toml --html pictures/handout.html --force >/dev/null
"$program" plan quarter-acre.toml --today 2026-10-24 --all --html pictures/whole.html --force >/dev/null
python3 chart_of_page.py pictures/whole.html "Temperature of its core" >pictures/temperature.svg
rm pictures/whole.html

chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --print-to-pdf=pictures/handout.pdf \
  "file://$PWD/pictures/handout.html" >/dev/null 2>&1
pdftoppm -r 90 -gray -png -f 1 -l 1 -singlefile pictures/handout.pdf pictures/handout
convert pictures/handout.png -bordercolor '#999' -border 1 -strip pictures/handout.png
rm pictures/handout.pdf
