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
  unpack() {
    mkdir -p "$1"
    for package in "${@:2}"; do
      [ -d "$1/$package" ] && continue
      (
        cd "$1"
        get -o APT::Sandbox::User=root download "$package"
        dpkg-deb -x "${package}"_*.deb "$package.new"
        rm "${package}"_*.deb
        mv "$package.new" "$package"
      )
    done
  }
  unpack "$folder/unpacked" heroes-sound-tracks pekka-kana-2-data tecnoballz-data tomatoes-data fb-music-high
  # shellcheck disable=SC2046
  unpack "$folder/more/unpacked" $(/usr/bin/python3 "$scripts/more_modules.py" --packages)
  mkdir -p "$folder/more/audio" "$folder/more/truth"
  gcc -O2 -o "$folder/unpacked/rows" "$scripts/rows.c" -lopenmpt
  cp "$folder/unpacked/rows" "$folder/more/unpacked/rows"

  for script in recordings drummachine modules workstation; do
    PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/$script.py" "$folder"
  done
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/accompaniments.py" "$folder/played"
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/styled.py" "$folder/styled"
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/varied.py" "$folder/varied" 2
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/planned.py" "$folder/planned"
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/more_modules.py" "$folder/more"
  PYTHONDONTWRITEBYTECODE=1 nice /usr/bin/python3 "$scripts/places.py" "$folder" "$folder/unpacked/rows"
} >>"$folder/build.log" 2>&1

echo "$(find "$folder/truth" -name '*.json' | wc -l) songs in $folder, $(find "$folder/played/truth" -name '*.json' | wc -l) pieces in played styles, $(find "$folder/styled/truth" -name '*.json' | wc -l) whose instruments come and go"
