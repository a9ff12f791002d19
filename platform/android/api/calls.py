"""Holds the calls that Rust makes of Android by name against what Android publishes: calls.py RUST LIST-29 LIST-34 JAR-23"""

import re
import sys

from check import Compiled, Published, has

# What the variables of that file are.
RECEIVERS = {
    "view": "android/webkit/WebView", "activity": "android/app/Activity", "&intent": "android/content/Intent", "&addresses": "java/util/ArrayList",
}
# Classes that come with the framework and not with Android.
ELSEWHERE = {"&provider"}


def calls(text):
    """Class, method and descriptor of each call; a call that is not understood has no class."""
    plain = re.sub(r"\s+", " ", text)
    for receiver, name, descriptor in re.findall(r'call(?:_static)?_method\( ?([^,]+), "(\w+)", "(\([^"]*)"', plain):
        if receiver not in ELSEWHERE:
            yield RECEIVERS.get(receiver, receiver.strip('"')), name, descriptor
    for owner, descriptor in re.findall(r'new_object\( ?"([\w/$]+)", "(\([^"]*)"', plain):
        yield owner, "<init>", descriptor


def main(source, list_29, list_34, jar_23):
    text = open(source, encoding="utf-8").read()
    found = list(calls(text))
    written = len(re.findall(r"call_method|call_static_method|new_object", text))
    level_29 = Published(29, list_29)
    versions = [level_29, Published(34, list_34, level_29), Compiled(23, jar_23)]
    wrong = [
        f"{owner}.{name}{descriptor} is not in Android's interface {version.level}"
        for owner, name, descriptor in found
        for version in versions
        if not has(version, {}, owner, "method", name, descriptor)
    ]
    understood = len(found) + len(re.findall(r"call_static_method\(\s*&provider", text))
    if understood != written:
        wrong.append(f"{written} calls are written, {understood} were understood")
    if wrong:
        sys.exit("\n".join(wrong))
    print(f"{source}: {len(found)} calls by name, all in Android's interfaces 23, 29 and 34")


if __name__ == "__main__":
    main(*sys.argv[1:])
