# Sourced by example-site/run.sh and tests/run.sh, from the root of the project: installs what is missing and builds.
# For dash; root is wanted only around apt-get, and only when something is missing.

say() { printf '%s\n' "$*"; }

stop() {
    printf 'stopped: %s\n' "$*" >&2
    exit 1
}

# missing_packages LIST...: those of .ci/packages-LIST.txt that are not installed
missing_packages() {
    for package in $(for list in "$@"; do sed 's/#.*//' ".ci/packages-$list.txt"; done); do
        case "$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null)" in
            *"ok installed"*) ;;
            *) printf '%s ' "$package" ;;
        esac
    done
}

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

# install_packages LIST...
install_packages() {
    missing=$(missing_packages "$@")
    [ -n "$missing" ] || return 0
    command -v apt-get >/dev/null 2>&1 ||
        stop "these Debian packages are missing and there is no apt-get to install them with: $missing"
    [ "$(id -u)" -eq 0 ] || command -v sudo >/dev/null 2>&1 ||
        stop "these packages are missing; install them as root, then run this again: apt-get install $missing"
    say "installing: $missing"
    # The list of a fresh machine may be old or empty.
    as_root apt-get -q update ||
        stop "apt-get update failed; check the network, or install by hand: apt-get install $missing"
    # shellcheck disable=SC2086  # a list of words
    as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends install $missing ||
        stop "apt-get could not install: $missing"
}

# configure FOLDER [CMake options]
configure() {
    folder=$1
    shift
    mkdir -p "$folder"
    cmake -S . -B "$folder" -G Ninja -DCMAKE_BUILD_TYPE=Release -DPEELBOOK_TOGETHER=ON "$@" >"$folder/configure.log" 2>&1 || {
        cat "$folder/configure.log" >&2
        stop "cmake could not set up $folder"
    }
}

# build FOLDER [targets]: everything without one
build() {
    folder=$1
    shift
    say "building $folder${*:+: $*}"
    ninja -C "$folder" "$@" >"$folder/build.log" 2>&1 || {
        tail -n 40 "$folder/build.log" >&2
        stop "the build failed; all of it stands in $folder/build.log"
    }
}
