#!/bin/bash
# build.sh FOLDER: makes the development songs; see README.md. What it does is written to FOLDER/build.log.
set -euo pipefail
folder=$(realpath -m "${1:?usage: build.sh FOLDER}")
scripts=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$folder/audio" "$folder/truth" "$folder/unpacked"

{
  export DEBIAN_FRONTEND=noninteractive
  get() { nice apt-get -qq -o DPkg::Lock::Timeout=600 "$@"; }
  get update
  get install -y --no-install-recommends \
    ffmpeg gcc libc6-dev libopenmpt-dev python3-mido python3-numpy python3-scipy \
    lmms lmms-common hydrogen hydrogen-data fretsonfire-songs-sectoid fretsonfire-songs-muldjord \
    mma fluidsynth fluid-soundfont-gm timgm6mb-soundfont

  # Games whose music alone is wanted are unpacked, not installed.
  for package in heroes-sound-tracks pekka-kana-2-data tecnoballz-data tomatoes-data fb-music-high; do
    [ -d "$folder/unpacked/$package" ] && continue
    (
      cd "$folder/unpacked"
      get -o APT::Sandbox::User=root download "$package"
      dpkg-deb -x "${package}"_*.deb "$package.new"
      rm "${package}"_*.deb
      mv "$package.new" "$package"
    )
  done
  gcc -O2 -o "$folder/unpacked/rows" "$scripts/rows.c" -lopenmpt

  for script in recordings drummachine modules workstation; do
    PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/$script.py" "$folder"
  done
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/accompaniments.py" "$folder/played"
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/styled.py" "$folder/styled"
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/varied.py" "$folder/varied" 2
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/places.py" "$folder" "$folder/unpacked/rows"
} >>"$folder/build.log" 2>&1

echo "$(find "$folder/truth" -name '*.json' | wc -l) songs in $folder, $(find "$folder/played/truth" -name '*.json' | wc -l) pieces in played styles, $(find "$folder/styled/truth" -name '*.json' | wc -l) whose instruments come and go"
