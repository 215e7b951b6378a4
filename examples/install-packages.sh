#!/usr/bin/env bash
# Installs what of examples/debian-packages is missing. Debian and its kin by apt; elsewhere it says what is needed.
set -euo pipefail
list=$(dirname "$0")/debian-packages

if ! command -v apt-get >/dev/null; then
  echo "This is no Debian. heapwright needs what these Debian packages hold:" $(cat "$list")
  exit 0
fi
missing=()
while read -r package; do
  dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing+=("$package")
done <"$list"
[ ${#missing[@]} -gt 0 ] || exit 0

as_root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "Missing packages: ${missing[*]}. Install them as root: apt-get install ${missing[*]}" >&2
    exit 1
  fi
  as_root=(sudo)
fi
echo "Installing ${missing[*]}"
export DEBIAN_FRONTEND=noninteractive
"${as_root[@]}" apt-get -qq update
"${as_root[@]}" apt-get -qq install -y --no-install-recommends "${missing[@]}" >/dev/null
