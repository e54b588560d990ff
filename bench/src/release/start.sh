# What the launcher of the source tree and the launcher of the release share. POSIX sh; the caller sets $root,
# the folder that holds config/.

complain() {
    printf 'sprag: %s\n' "$@" >&2
}

# Prints the version of a java program. The file "release" of its home tells it without starting it.
java_version() { # JAVA
    found=$(readlink -f "$(command -v "$1")")
    version=$(sed -n 's/^JAVA_VERSION="\([0-9]*\).*/\1/p' "${found%/bin/java}/release" 2>/dev/null)
    if [ -z "$version" ]; then
        version=$("$1" -XshowSettings:properties -version 2>&1 | sed -n 's/^ *java\.specification\.version = *//p')
    fi
    printf '%s\n' "$version"
}

# Prints the java program to use: that of JAVA_HOME, else the one on the path. It must be 17 or newer.
find_java() { # WHAT-TO-INSTALL [WHAT-ELSE-TO-INSTALL]
    java=java
    if [ -n "${JAVA_HOME:-}" ] && [ -x "$JAVA_HOME/bin/java" ]; then
        java=$JAVA_HOME/bin/java
    fi
    if ! command -v "$java" >/dev/null 2>&1; then
        complain "no Java was found. Install $1 or newer${2:+ ($2)}, or set JAVA_HOME to one."
        return 1
    fi
    version=$(java_version "$java")
    if [ "${version%%.*}" -lt 17 ] 2>/dev/null; then
        complain "$java is Java $version; sprag needs 17 or newer. Install $1 or newer, or set JAVA_HOME to one."
        return 1
    fi
    printf '%s\n' "$java"
}

# True when a run plays for hours, or all scenarios: then the full compiler earns more than its slow start costs.
plays_long() { # run VEHICLE [SCENARIO...], options in between
    named=false
    for word in "$@"; do
        for file in "$word" "$root/config/scenarios/$word.toml"; do
            case $file in *.toml) [ -f "$file" ] || continue ;; *) continue ;; esac
            named=true
            [ -z "$(sed -n '/duration_s *= *[0-9_]\{5\}/p' "$file")" ] || return 0
        done
    done
    [ "$named" = false ]
}

# Becomes the program. Short commands start fastest with the simplest collector and the quick compiler; those that
# compute for long want all of it.
start() { # JAVA CLASS-PATH ARGUMENT...
    java=$1
    classes=$2
    shift 2
    speed='-XX:+UseSerialGC -XX:TieredStopAtLevel=1'
    case ${1:-} in
        prove | campaign | margin | prove-benchmark | explore-benchmark) speed=-XX:+UseParallelGC ;;
        panel) speed=-XX:+UseSerialGC ;;
        run) if plays_long "$@"; then speed=-XX:+UseSerialGC; fi ;;
    esac
    terminal=false
    [ -t 1 ] && terminal=true
    # $speed is several words. The serial port library is native code; newer Javas warn of it unless it is allowed.
    exec "$java" $speed --enable-native-access=ALL-UNNAMED -Xshare:auto -Djava.awt.headless=true \
        -Dsprag.home="$root" -Dsprag.terminal=$terminal -cp "$classes" sprag.bench.Sprag "$@"
}
