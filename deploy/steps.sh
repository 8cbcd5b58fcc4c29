# shellcheck shell=bash
# Steps that the commands of this folder share. Sourced by bash, from the project's top.

# refuse SENTENCE: says what is wrong and what to do, and ends the command.
refuse() {
  printf '%s: %s\n' "$0" "$1" >&2
  exit 1
}

# check_folder FOLDER: as root, PostgreSQL runs as user postgres, who has to get there. Better now
# than after a long build.
check_folder() {
  local folder=$1
  [ "$(id -u)" = 0 ] || return 0
  while [ "$folder" != / ]; do
    case $(stat -c '%A %U' "$folder" 2>/dev/null) in
      '' | ?????????[xt]* | *' postgres') ;;  # '' is yet to be made
      *)
        refuse "user postgres cannot enter $folder: run chmod o+x on it, or use a folder that others may enter."
        ;;
    esac
    folder=$(dirname "$folder")
  done
}
check_folder "$PWD"

# progress TEXT: reads what a step prints, to its end, and says at least every ten seconds how far it
# is. Lines "@DONE/TOTAL " are ninja's steps (NINJA_STATUS); its errors are printed as they are.
progress() {
  local text=$1 begun=$SECONDS shown=$SECONDS count='' read_so_far='' line ended='' overwrites=''
  [ ! -t 1 ] || overwrites=yes
  [ -z "$overwrites" ] || printf '%s ...' "$text"
  while [ -z "$ended" ]; do
    if IFS= read -r -t 2 line; then
      line=$read_so_far$line
      read_so_far=
      if [[ $line =~ ^@([0-9]+)/([0-9]+)\  ]]; then
        count=": ${BASH_REMATCH[1]} of ${BASH_REMATCH[2]}"
      elif [[ $line != "ninja: Entering directory "* && $line != "ninja: no work to do." ]]; then
        [ -z "$overwrites" ] || printf '\r\033[K'
        printf '%s\n' "$line"
      fi
    elif [ $? -gt 128 ]; then  # two seconds without a whole line
      read_so_far=$read_so_far$line
    else
      ended=yes
    fi
    if [ -n "$overwrites" ]; then
      printf '\r\033[K%s%s, %d s' "$text" "$count" $((SECONDS - begun))
    elif [ $((SECONDS - shown)) -ge 8 ]; then
      shown=$SECONDS
      printf '%s%s, %d s\n' "$text" "$count" $((SECONDS - begun))
    fi
  done
  if [ -n "$overwrites" ]; then
    printf '\n'
  elif [ "$shown" = "$begun" ]; then
    printf '%s%s, %d s\n' "$text" "$count" $((SECONDS - begun))
  fi
}

# with_progress TEXT COMMAND...: runs a command whose output matters only if it fails.
with_progress() {
  local text=$1 output status=0
  shift
  output=$(mktemp)
  { "$@" >"$output" 2>&1; } | progress "$text" || status=$?
  [ "$status" = 0 ] || tail -n 20 "$output" >&2
  rm -f "$output"
  return "$status"
}

# install_packages SECTION...: what is missing of these sections of deploy/packages.
install_packages() {
  local installed missing sudo='' command
  command -v dpkg-query >/dev/null ||
    refuse "this is no Debian system; Rowproof is built and run on Debian 12."
  # npm may have come with another Node.js than Debian's.
  installed=$(dpkg-query -W -f '${db:Status-Abbrev} ${Package}\n' | awk '$1 == "ii" {print $2}'
    ! command -v npm >/dev/null || echo npm)
  missing=$(awk -v sections=" $* " 'NR == FNR {have[$1] = 1; next}
      /^#/ {wanted = index(sections, " " $2 " "); next} wanted && !have[$1]' \
    <(echo "$installed") deploy/packages | paste -sd ' ')
  [ -n "$missing" ] || return 0
  command="apt-get install --no-install-recommends $missing"
  if [ "$(id -u)" != 0 ]; then
    sudo=sudo
    # Without a terminal nobody can type a password.
    if ! command -v sudo >/dev/null || ! { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v; }; }; then
      refuse "Debian packages are missing; as root, run: $command"
    fi
  fi
  # Debian would start a cluster of its own, which nobody here asked for.
  $sudo mkdir -p /etc/postgresql-common
  [ -e /etc/postgresql-common/createcluster.conf ] ||
    echo 'create_main_cluster = false' | $sudo tee /etc/postgresql-common/createcluster.conf >/dev/null
  with_progress "Reading Debian's list of packages" $sudo apt-get update -qq ||
    refuse "Debian's list of packages cannot be read; see above, then run: apt-get update"
  # shellcheck disable=SC2086
  with_progress "Installing $(wc -w <<<"$missing") packages" \
    $sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing ||
    refuse "the packages cannot be installed; see above, then run: $command"
}

# build PRESET [TARGET...]: build/PRESET from .cmake/PRESET.cmake.
build() {
  local preset=$1
  shift
  with_progress "Configuring $preset" \
    cmake -C ".cmake/$preset.cmake" -S . -B "build/$preset" -G Ninja ||
    refuse "the $preset build cannot be configured; see above."
  NINJA_STATUS='@%f/%t ' ninja -C "build/$preset" "$@" | progress "Building $preset" ||
    refuse "the $preset build failed; see above."
}

# buf ARGUMENTS...: the tool that checks the API, as deploy/buf/package-lock.json pins it, in proto/.
buf() {
  local folder=build/buf
  if [ ! -d "$folder/node_modules" ] ||
    ! cmp -s deploy/buf/package-lock.json "$folder/package-lock.json"; then
    mkdir -p "$folder"
    rm -rf "$folder/node_modules"
    cp deploy/buf/package.json deploy/buf/package-lock.json "$folder/"
    with_progress "Installing buf" npm ci --loglevel=error --no-fund --no-audit \
      --cache "$folder/cache" --prefix "$folder" ||
      refuse "npm cannot install buf; see above."
  fi
  (cd proto && "../$folder/node_modules/@bufbuild/buf-linux-$(uname -m | sed s/x86_64/x64/)/bin/buf" "$@")
}

# Where the tests leave their files: a folder of this run, in which nothing may be left. Its name is
# short, since the sockets of databases lie in it.
begin_tests() {
  TMPDIR=$(mktemp -d /tmp/rp-XXXXXX)
  export TMPDIR
  chmod 1777 "$TMPDIR"  # user postgres works there, too
  trap 'rm -rf "$TMPDIR"' EXIT
  worktree=$(git status --porcelain)
}

# Fails if a process, a temporary file or a file in the checkout is left. A test's database ends with it,
# but not at once.
end_tests() {
  local waited left=
  for ((waited = 0; waited < 100; waited++)); do
    left=$(find "$TMPDIR" -mindepth 1 -maxdepth 1
      grep -laF -- "$TMPDIR/" /proc/[0-9]*/cmdline 2>/dev/null || [ $? -le 2 ])  # 1: none; 2: one has ended
    [ -n "$left" ] || break
    sleep 0.1
  done
  [ -z "$left" ] || refuse "the tests left files or processes: $left"
  [ "$worktree" = "$(git status --porcelain)" ] ||
    refuse "the tests left files in the checkout; git status shows them."
}

# sanitized_tests CTEST-OPTION...: tests of the asan build; what they run is counted in build/asan/lines.
sanitized_tests() {
  mkdir -p build/asan/lines
  chmod 777 build/asan/lines
  umask 0  # programs that leave root add to the same files as user postgres
  # rowproofd makes files for its own user only, root or postgres; before it does, its count is made.
  LLVM_PROFILE_FILE=$PWD/build/asan/lines/%m.profraw build/asan/rowproofd --help >/dev/null
  # Leaks of others are known by the names of their functions.
  ASAN_SYMBOLIZER_PATH=/usr/bin/llvm-symbolizer-14 ASAN_OPTIONS=detect_leaks=1:abort_on_error=0 \
    LSAN_OPTIONS=suppressions=$PWD/tests/support/lsan.supp:print_suppressions=0 \
    UBSAN_OPTIONS=print_stacktrace=1 LLVM_PROFILE_FILE=$PWD/build/asan/lines/%m.profraw \
    ctest --test-dir build/asan --output-on-failure --no-tests=error -j2 "$@"
}
