# Sourced by ./run, ./test and the tools: finds which Debian packages are missing and sees to them.
# Everything said here goes to stderr; stdout belongs to the program.

say() { printf '%s\n' "$*" >&2; }

# package_names FILE...: the first word of every line that is not a comment.
package_names() { awk '{ sub(/#.*/, "") } NF { print $1 }' "$@"; }

# missing_packages FILE...: the named packages that are neither installed nor provided by an installed one.
missing_packages() {
  local installed
  installed=$(dpkg-query -W -f '${db:Status-Status}\t${Package}, ${Provides}\n' 2>/dev/null |
    awk -F '\t' '$1 == "installed" {
      count = split($2, name, /, */)
      for (i = 1; i <= count; ++i) { sub(/[ :(].*/, "", name[i]); if (name[i] != "") print name[i] }
    }')
  package_names "$@" | awk 'NR == FNR { there[$1]; next } !($1 in there)' <(printf '%s\n' "$installed") -
}

# lists_are_empty NAME...: true when apt knows no version of one of the packages, as before the first update.
lists_are_empty() {
  local name
  for name in "$@"; do
    LC_ALL=C apt-cache policy "$name" 2>/dev/null | grep -q 'Candidate: [^(]' || return 0
  done
  return 1
}

# download_size NAME...: what apt would fetch, in words.
download_size() {
  local uris
  uris=$(LC_ALL=C apt-get install --print-uris -y -qq --no-install-recommends "$@" 2>/dev/null) ||
    { printf 'size unknown'; return; }
  printf '%s\n' "$uris" | awk '/^\047/ { ++count; bytes += $3 } END {
    if (count) printf "%d package%s, %.1f MB to fetch", count, (count > 1 ? "s" : ""), bytes / 1e6; else printf "nothing left to fetch" }'
}

# say_line UPDATE NAME...: the one line that a person types, indented, and by whom.
say_line() {
  local update=$1 rights=
  shift
  if [ "$(id -u)" != 0 ] && command -v sudo >/dev/null; then rights='sudo '; fi
  if [ -n "$rights" ]; then say "Type this, then start again:"; else say "Type this as root, then start again:"; fi
  if [ "$update" = yes ]; then
    say "    ${rights}apt-get update && ${rights}apt-get install -y --no-remove --no-install-recommends $*"
  else
    say "    ${rights}apt-get install -y --no-remove --no-install-recommends $*"
  fi
}

# as_root COMMAND...: by the rights at hand.
as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

apt_install() {
  as_root env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -q --no-remove --no-install-recommends "$@" </dev/null >&2
}

# ensure_packages YES FILE...: returns when all packages are there; otherwise installs them or ends with 2.
#   YES  "yes" skips the question.
ensure_packages() {
  local yes=$1 update=no missing
  shift
  if ! command -v dpkg-query >/dev/null; then
    say "This is not a Debian system: the packages named in $* are taken to be there."
    return 0
  fi
  mapfile -t missing < <(missing_packages "$@")
  [ "${#missing[@]}" = 0 ] && return 0

  lists_are_empty "${missing[@]}" && update=yes
  say "Missing Debian packages: ${missing[*]}"
  if [ "$update" = yes ]; then
    say "apt has no list of them yet, so their exact size is known only after apt-get update:"
    sed -n 's/^# Size: /  /p' "$@" >&2
  else
    say "With what they need: $(download_size "${missing[@]}")."
  fi

  if ! may_install "$yes"; then
    say_line "$update" "${missing[@]}"
    exit 2
  fi
  if [ "$update" = yes ]; then
    as_root apt-get update -q </dev/null >&2 || { say "apt-get update failed."; exit 2; }
    say "With what they need: $(download_size "${missing[@]}")."
  fi
  apt_install "${missing[@]}" && return 0
  say "Once more with fresh lists."
  if as_root apt-get update -q </dev/null >&2 && apt_install "${missing[@]}"; then return 0; fi
  say "The packages could not be installed."
  say_line yes "${missing[@]}"
  exit 2
}

# may_install YES: true when there are rights and a yes, given before or on the terminal.
may_install() {
  local yes=$1 answer
  [ "${CI:-}" = true ] && yes=yes
  if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null || return 1
    if [ ! -t 0 ] && ! sudo -n true 2>/dev/null; then return 1; fi
  fi
  [ "$yes" = yes ] && return 0
  [ -t 0 ] && [ -t 2 ] || return 1
  printf 'Install them now? [y/N] ' >&2
  read -r answer || return 1
  case $answer in [yY] | [yY][eE][sS]) return 0 ;; *) return 1 ;; esac
}

# build_preset ROOT PRESET [TARGET...]: configures and builds in ROOT/build/PRESET as the caller, on every core.
# A build folder that was made for another place is made anew.
build_preset() {
  local root=$1 preset=$2 folder=$1/build/$2 configured
  shift 2
  if [ -f "$folder/CMakeCache.txt" ] &&
    ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt"; then
    say "build/$preset belongs to another folder; it is built anew."
    rm -rf -- "$folder"
  fi
  if [ ! -f "$folder/build.ninja" ] || [ "$root/CMakePresets.json" -nt "$folder/build.ninja" ]; then
    say "Building in build/$preset. The first time takes some minutes."
    configured=$(cmake -S "$root" --preset "$preset" 2>&1) || { say "$configured"; return 1; }
    touch -- "$folder/build.ninja"
  fi
  if [ -t 2 ]; then
    ninja -C "$folder" "$@" >&2
  else
    ninja -C "$folder" --quiet "$@" 2>&1 | sed '/^ninja: no work to do/d' >&2
    return "${PIPESTATUS[0]}"
  fi
}
