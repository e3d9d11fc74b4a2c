#!/bin/sh
# Installs the Debian packages that a build (setup.sh build) or the tests
# (setup.sh test; setup.sh fuzz for the fuzzer) need and this machine lacks. Asks for nothing where all is
# there, and needs neither a compiler nor pkg-config to say so.
set -eu

missing=

# want PACKAGE COMMAND...: the package is missing where the command fails.
want() {
    package=$1
    shift
    "$@" >/dev/null 2>&1 || missing="$missing $package"
}

want gcc command -v gcc
want libc6-dev test -e /usr/include/stdio.h
want pkg-config command -v pkg-config
want libcairo2-dev pkg-config --exists cairo cairo-pdf
want libpango1.0-dev pkg-config --exists pangocairo pangoft2
want libfontconfig-dev pkg-config --exists fontconfig
want libglib2.0-dev pkg-config --exists glib-2.0
want libxml2-dev pkg-config --exists libxml-2.0
want libpng-dev pkg-config --exists libpng
want libharfbuzz-dev pkg-config --exists harfbuzz harfbuzz-subset
want libfreetype-dev pkg-config --exists freetype2
want libjpeg-dev pkg-config --exists libjpeg
want zlib1g-dev pkg-config --exists zlib
want libdeflate-dev pkg-config --exists libdeflate
want libgeos-dev pkg-config --exists geos
want libjansson-dev pkg-config --exists jansson
want libgmp-dev pkg-config --exists gmp
if [ "${1:-build}" = test ]; then
    want libcmocka-dev pkg-config --exists cmocka
    want libmpfi-dev test -e /usr/include/mpfi.h
    want poppler-utils command -v pdftotext
    want qpdf command -v qpdf
    want mupdf-tools command -v mutool
    want jing command -v jing
    want libxml2-utils command -v xmllint
    want jq command -v jq
    want mandoc command -v mandoc
fi
# The runtime of the fuzzer comes with clang, or in a package of its own.
fuzzer_links() {
    ! apt-cache show libclang-rt-dev >/dev/null 2>&1 ||
        echo 'int LLVMFuzzerTestOneInput(void); int LLVMFuzzerTestOneInput(void) { return 0; }' |
        clang -fsanitize=fuzzer -x c -o /dev/null -
}
[ "${1:-build}" != fuzz ] || want libclang-rt-dev fuzzer_links
if [ -n "${CC:-}" ] && [ "${CC%% *}" = clang ]; then
    want clang command -v clang
fi

if [ -z "$missing" ]; then
    echo "deps: nothing to do"
    exit 0
fi
if ! command -v apt-get >/dev/null 2>&1; then
    echo "deps: there is no apt-get here; please install:$missing" >&2
    exit 1
fi

as_root=
[ "$(id -u)" -eq 0 ] || as_root=sudo
echo "deps: installing$missing"
$as_root apt-get update
# shellcheck disable=SC2086 # a list of words
$as_root env DEBIAN_FRONTEND=noninteractive apt-get \
    -o DPkg::Lock::Timeout=300 install -y --no-install-recommends $missing
