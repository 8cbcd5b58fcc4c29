# Steps that the commands of this folder share. Sourced by bash, from the project's top.

# Better now than after a long build: run by root, PostgreSQL goes on as user postgres.
folder=$PWD
while [ "$(id -u)" = 0 ] && [ "$folder" != / ]; do
  case $(stat -c '%A %U' "$folder") in
    ?????????[xt]* | *' postgres') ;;
    *)
      echo "User postgres cannot enter $folder: move the checkout to a folder that others may pass" >&2
      exit 1
      ;;
  esac
  folder=$(dirname "$folder")
done

# install_packages SECTION...: what is missing of these sections of deploy/packages.
install_packages() {
  local installed missing
  # npm may have come with another Node.js than Debian's.
  installed=$(dpkg-query -W -f '${db:Status-Abbrev} ${Package}\n' | awk '$1 == "ii" {print $2}'
    ! command -v npm >/dev/null || echo npm)
  missing=$(awk -v sections=" $* " 'NR == FNR {have[$1] = 1; next}
      /^#/ {wanted = index(sections, " " $2 " "); next} wanted && !have[$1]' \
    <(echo "$installed") deploy/packages)
  [ -n "$missing" ] || return 0
  echo "Installing packages:" $missing
  local sudo=
  [ "$(id -u)" = 0 ] || sudo=sudo
  # Debian would start a cluster of its own, which nobody here asked for.
  $sudo mkdir -p /etc/postgresql-common
  [ -e /etc/postgresql-common/createcluster.conf ] ||
    echo 'create_main_cluster = false' | $sudo tee /etc/postgresql-common/createcluster.conf >/dev/null
  $sudo apt-get update -qq
  # shellcheck disable=SC2086
  $sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing \
    >/dev/null
}

# build PRESET TESTS [TARGET...]: build/PRESET from .cmake/PRESET.cmake. TESTS is ON or OFF: whether
# GoogleTest is there to build tests with.
build() {
  local preset=$1 tests=$2
  shift 2
  cmake -C ".cmake/$preset.cmake" -S . -B "build/$preset" -G Ninja "-DROWPROOF_TESTS=$tests" \
    >/dev/null
  echo "Building $preset"
  cmake --build "build/$preset" ${1:+--target "$@"} -- --quiet
}
