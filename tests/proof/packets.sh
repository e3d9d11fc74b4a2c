# What the scripts of this folder begin with; they source it. A place to work in,
# the program by its full path, and how a case is told, with $about before it.
cd "$(dirname "$0")/../.." || exit 2
root=$PWD
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
case $SEAMWRIGHT in
/*) ;;
*) SEAMWRIGHT=$root/$SEAMWRIGHT ;;
esac
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
export LC_ALL=C.UTF-8

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok $about$1"
    else
        echo "not ok $about$1: $2"
        failed=1
    fi
}
