# What the launcher of the source tree and the launcher of the release share. POSIX sh; the caller sets $root,
# the folder that holds config/, and may set $archive, a file that make_archive has made or will make.

complain() {
    printf 'sprag: %s\n' "$@" >&2
}

# Prints the version of a java program. The file "release" of its home tells it without starting it.
java_version() { # JAVA
    found=$(readlink -f "$(command -v "$1")")
    version=$(sed -n 's/^JAVA_VERSION="\([^"]*\)".*/\1/p' "${found%/bin/java}/release" 2>/dev/null)
    if [ -z "$version" ]; then
        version=$("$1" -XshowSettings:properties -version 2>&1 | sed -n 's/^ *java\.specification\.version = *//p')
    fi
    printf '%s\n' "$version"
}

# Prints the java program that is meant: that of JAVA_HOME, else the one on the path.
meant_java() {
    if [ -n "${JAVA_HOME:-}" ] && [ -x "$JAVA_HOME/bin/java" ]; then
        printf '%s\n' "$JAVA_HOME/bin/java"
    else
        printf 'java\n'
    fi
}

# Prints the java program to use: the one that is meant. It must be 17 or newer.
find_java() { # WHAT-TO-INSTALL [WHAT-ELSE-TO-INSTALL]
    java=$(meant_java)
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
            # five digits, or worked out from the vehicle, as for a charge
            [ -z "$(sed -n -e '/^duration_s *= *"/p' -e '/^duration_s *= *[0-9_]\{5\}/p' "$file")" ] || return 0
        done
    done
    [ "$named" = false ]
}

# Makes an archive of the classes that the usual commands load. Java starts from it in half the time, and ignores one that
# does not fit. A failure costs that time and nothing else: it leaves an empty file, so that it is not tried at each start.
make_archive() { # JAVA CLASS-PATH ARCHIVE
    list=$3.$$.list
    "$1" -Xshare:off -XX:DumpLoadedClassList="$list" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 \
        --enable-native-access=ALL-UNNAMED -Djava.awt.headless=true -Dsprag.home="$root" \
        -cp "$2" sprag.bench.Rehearsal </dev/null >/dev/null 2>&1 &&
        # a class of an old format cannot be archived once a lambda was made from it
        sed '/^@lambda-proxy .*picocli/d' "$list" >"$list.kept" 2>/dev/null &&
        "$1" -Xshare:dump -XX:SharedClassListFile="$list.kept" -XX:SharedArchiveFile="$3.$$" \
            -cp "$2" </dev/null >/dev/null 2>&1 &&
        mv -f "$3.$$" "$3" 2>/dev/null || (: >"$3") 2>/dev/null
    rm -f "$list" "$list.kept" "$3.$$" 2>/dev/null
    return 0
}

# Becomes the program. Short commands start fastest with the simplest collector and the quick compiler; those that
# compute for long want all of it. A proof is done before the full compiler pays, except with --max-states.
start() { # JAVA CLASS-PATH ARGUMENT...
    java=$1
    classes=$2
    shift 2
    speed='-XX:+UseSerialGC -XX:TieredStopAtLevel=1'
    case ${1:-} in
        campaign | margin | speed | prove-benchmark | explore-benchmark) speed=-XX:+UseParallelGC ;;
        prove) case " $* " in *' --max-states'*) speed=-XX:+UseParallelGC ;; esac ;;
        panel | trip) speed=-XX:+UseSerialGC ;;
        port) case " $* " in *' --compare '*) speed=-XX:+UseParallelGC ;; esac ;;
        run) if plays_long "$@"; then speed=-XX:+UseParallelGC; fi ;;
    esac
    shared=-Xshare:auto
    [ -s "${archive:-}" ] && shared=-XX:SharedArchiveFile=$archive
    terminal=false
    [ -t 1 ] && terminal=true
    # $speed is several words. The serial port library is native code; newer Javas warn of it unless it is allowed.
    exec "$java" $speed --enable-native-access=ALL-UNNAMED "$shared" '-Xlog:cds*=off' -Djava.awt.headless=true \
        -Dsprag.home="$root" -Dsprag.terminal=$terminal -cp "$classes" sprag.bench.Sprag "$@"
}
