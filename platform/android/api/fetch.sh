# Sourced by apk.sh and prove.sh, after platform/install.sh: what Android publishes, from Debian's own
# archive. Each piece is kept by its version in a cache folder and fetched once; apt works by a
# configuration of its own, so that the machine's package sources stay as they are.
#   want api-29 api-34 api-23 dx     then their files are "$API_29", "$API_34", "$API_23", "$DX"
#   android_jar                      makes "$ANDROID_JAR" of the lists, where it is older than what makes it
CACHE=${CURBCORE_CACHE:-${XDG_CACHE_HOME:-$HOME/.cache}/curbcore}/android

# What, from which package, of which version and release of Debian.
#   api-29  the list of Android 10; java.* is in it
#   api-34  the list of Android 14, without the parts that are updated apart (java.* is one)
#   api-23  the classes of Android 6: the newest before the least that the app asks for
#   dx      Android's dexer, as source
BASE_29=android-platform-frameworks-base=1:10.0.0+r36-10
BASE_34=android-platform-frameworks-base=1:14~beta1-3
JAR_23=libandroid-23-java=6.0.1+r72-6
TOOLS=android-platform-tools=29.0.6-28

API_29=$CACHE/api-29_10.0.0+r36.txt
API_34=$CACHE/api-34_14~beta1.txt
API_23=$CACHE/api-23_6.0.1+r72-6.jar
DX=$CACHE/dx_29.0.6.jar
ANDROID_JAR=target/android.jar

# apt with lists, sources and cache of its own.
own_apt() {
    local tool=$1
    shift
    "$tool" -q -o Dir::Etc::SourceList="$CACHE/apt/sources.list" -o Dir::Etc::SourceParts=/dev/null \
        -o Dir::State::Lists="$CACHE/apt/lists" -o Dir::Cache="$CACHE/apt/cache" -o APT::Sandbox::User=root \
        -o Acquire::IndexTargets::deb::DEP-11::DefaultEnabled=false -o Acquire::Languages=none "$@"
}

prepare_apt() {
    [ -s "$CACHE/apt/sources.list" ] && return 0
    mkdir -p "$CACHE/apt/lists/partial" "$CACHE/apt/cache/archives/partial"
    local archive
    # Debian's archive, where this machine has it from.
    local find=(apt-get indextargets --format '$(REPO_URI)' 'Label: Debian')
    archive=$("${find[@]}" | head -n 1)
    [ -n "$archive" ] || { as_root apt-get update -qq; archive=$("${find[@]}" | head -n 1); }
    [ -n "$archive" ] || return 1
    local signed='[signed-by=/usr/share/keyrings/debian-archive-keyring.gpg]' release
    for release in bookworm trixie; do echo "deb-src $signed $archive $release main"; done >"$CACHE/apt/sources.list"
    echo "deb $signed $archive bullseye main" >>"$CACHE/apt/sources.list"
    own_apt apt-get update -qq
}

# Into a folder of its own; its archives are signed for by Debian's lists.
fetched() { # source|download PACKAGE=VERSION
    local kind=(source --tar-only --download-only)
    [ "$1" = source ] || kind=(download)
    prepare_apt && own_apt apt-get "${kind[@]}" -qq "$2" >/dev/null
}

make_piece() { # NAME, in an empty folder
    case $1 in
    api-29)
        fetched source "$BASE_29" && tar xJf ./*.orig.tar.xz api/current.txt && mv api/current.txt "$API_29"
        ;;
    api-34)
        fetched source "$BASE_34" && tar xJf ./*.orig.tar.xz ./core/api/current.txt && mv core/api/current.txt "$API_34"
        ;;
    api-23)
        fetched download "$JAR_23" && dpkg-deb -x ./*.deb . && mv usr/share/java/com.android.android-23.jar "$API_23"
        ;;
    dx)
        fetched source "$TOOLS" && tar xzf ./*.orig.tar.gz --strip-components=3 android-platform-tools-29.0.6/dalvik/dx/src &&
            find src -name '*.java' ! -path '*junit*' >list && mkdir classes &&
            javac -nowarn -encoding utf-8 -d classes @list 2>/dev/null &&
            jar cfe dx.jar com.android.dx.command.Main -C classes . && mv dx.jar "$DX"
        ;;
    esac
}

# Has the pieces named; 1 where one of them is not to be had.
want() {
    mkdir -p "$CACHE"
    local piece file work
    for piece in "$@"; do
        case $piece in api-29) file=$API_29 ;; api-34) file=$API_34 ;; api-23) file=$API_23 ;; dx) file=$DX ;; esac
        [ -s "$file" ] && continue
        echo "Fetching $piece"
        work=$(mktemp -d "$CACHE/work.XXXXXX")
        (cd "$work" && make_piece "$piece") || { rm -rf "$work" "$CACHE/apt"; echo "$piece is not to be had" >&2; return 1; }
        rm -rf "$work"
    done
    # Lists of packages grow old: the next time begins with new ones.
    rm -rf "$CACHE/apt"
}

# The interface to compile against, for the shell and for the framework's Kotlin: Android 14's, and Android
# 10's for what is updated apart. Needs api-29 and api-34.
android_jar() {
    local api=platform/android/api part fresh=yes
    for part in published.py class_file.py android_jar.py fetch.sh; do
        [ "$ANDROID_JAR" -nt "$api/$part" ] || fresh=no
    done
    [ $fresh = yes ] && return 0
    mkdir -p "${ANDROID_JAR%/*}"
    python3 -B "$api/android_jar.py" "$ANDROID_JAR.new" "$API_29" "$API_34" && mv "$ANDROID_JAR.new" "$ANDROID_JAR"
}
