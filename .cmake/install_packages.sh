#!/usr/bin/env bash
# Installs the Debian packages of the given groups of packages.txt that are
# missing, and touches neither apt nor the network where none is.
set -euo pipefail

list="$(dirname "${BASH_SOURCE[0]}")/packages.txt"
missing=()
for group in "$@"; do
  while read -r package command; do
    [[ -z "$command" ]] || ! command -v "$command" > /dev/null || continue
    state="$(dpkg-query --show --showformat '${db:Status-Status}' "$package" 2>/dev/null)" || state=absent
    [[ "$state" == installed ]] || missing+=("$package")
  done < <(awk -v group="$group" '$1 == group { print $2, $3 }' "$list")
done
if ((${#missing[@]} == 0)); then
  exit 0
fi

echo "Installing: ${missing[*]}"
as_root=()
((EUID == 0)) || as_root=(sudo)
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
  apt-get -o DPkg::Lock::Timeout=120 install --yes --quiet --no-install-recommends "${missing[@]}"
