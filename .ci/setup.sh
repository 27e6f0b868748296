# shellcheck shell=dash
# Sourced by example-site/run.sh and tests/run.sh, from the root of the project: installs what is missing and builds.
# Root is wanted only around apt-get, and only when something is missing.

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
    { NINJA_STATUS='%p %f/%t ' ninja -C "$folder" "$@" 2>&1 || say stopped; } | tee "$folder/build.log" | show_progress || {
        tail -n 40 "$folder/build.log" >&2
        stop "the build failed; all of it stands in $folder/build.log"
    }
}

# Reads ninja's lines "45% 23/51 what was built"; shows on a terminal one line that is rewritten, in a log one about every tenth.
show_progress() {
    shown=0
    status=0
    while read -r percent steps _; do
        case $percent in
            stopped) status=1 ;;
            [0-9]*%) show_step "${percent%\%}" "$steps" ;;
        esac
    done
    if [ -t 1 ] && [ "$shown" -gt 0 ]; then say; fi
    return "$status"
}

show_step() {
    if [ -t 1 ]; then
        printf '\r  %s%%, %s steps ' "$1" "$2"
    elif [ "$1" -ge $((shown + 10)) ]; then
        say "  $1%, $2 steps"
    else
        return 0
    fi
    shown=$1
}
