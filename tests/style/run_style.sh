#!/bin/sh
# The style of this project's own sources.
exec "$(dirname "$0")/check.sh"
