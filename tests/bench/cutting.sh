#!/bin/sh
# What the samples' cutting plans take and ask, against each size by itself and
# against the bound: the lines of `seamwright list --cutting`.
set -eu
cd "$(dirname "$0")/../.."
program=${BUILD:-build}/seamwright
for sample in samples/*.xml; do
    "$program" list --cutting "$sample" 2>/dev/null
done
