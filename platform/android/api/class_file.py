"""Class files of the Java virtual machine (its specification, chapter 4): what an app's check reads, and stubs."""

import struct

FLAGS = {
    "public": 0x1, "protected": 0x4, "static": 0x8, "final": 0x10, "synchronized": 0x20, "volatile": 0x40, "transient": 0x80, "native": 0x100,
    "abstract": 0x400, "strictfp": 0x800,
}
SUPER, VARARGS, INTERFACE, ANNOTATION, ENUM = 0x20, 0x80, 0x200, 0x2000, 0x4000


class Pool:
    """A constant pool that is being written."""

    def __init__(self):
        self.entries, self.index, self.next = [], {}, 1

    def add(self, key, data, slots=1):
        if key not in self.index:
            self.index[key] = self.next
            self.entries.append(data)
            self.next += slots
        return self.index[key]

    def text(self, value):
        # Modified UTF-8: no zero byte, and what is beyond the first plane as two surrogates.
        data = b"".join(
            b"\xc0\x80" if unit == 0 else chr(unit).encode("utf-8", "surrogatepass")
            for (unit,) in struct.iter_unpack(">H", value.encode("utf-16-be", "surrogatepass"))
        )
        return self.add(("text", value), b"\x01" + struct.pack(">H", len(data)) + data)

    def class_(self, name):
        return self.add(("class", name), b"\x07" + struct.pack(">H", self.text(name)))

    def constant(self, value, kind):
        if kind == "Ljava/lang/String;":
            return self.add(("string", value), b"\x08" + struct.pack(">H", self.text(value)))
        tag, form, slots = {"J": (5, ">q", 2), "F": (4, ">f", 1), "D": (6, ">d", 2)}.get(kind, (3, ">i", 1))
        data = struct.pack(form, value)
        return self.add((kind in "JFD" and kind, data), bytes([tag]) + data, slots)

    def bytes(self):
        return struct.pack(">H", self.next) + b"".join(self.entries)


def attribute(pool, name, data):
    return struct.pack(">HI", pool.text(name), len(data)) + data


def member(pool, one, flags, attributes):
    if one.signature != one.descriptor:
        attributes = attributes + [attribute(pool, "Signature", struct.pack(">H", pool.text(one.signature)))]
    head = struct.pack(">HHHH", flags, pool.text(one.name), pool.text(one.descriptor), len(attributes))
    return head + b"".join(attributes)


def arguments(descriptor):
    """How many slots a method's arguments take."""
    inside, slots, at = descriptor[1 : descriptor.index(")")], 0, 0
    while at < len(inside):
        slots += 2 if inside[at] in "JD" else 1
        while inside[at] == "[":
            at += 1
        at = inside.index(";", at) + 1 if inside[at] == "L" else at + 1
    return slots


def stub(one, nested):
    """A class as a class file whose methods do nothing but throw; `nested` are the classes named with a $."""
    pool = Pool()
    interface = one.kind in ("interface", "@interface")
    flags_of = lambda modifiers: sum(FLAGS.get(word, 0) for word in modifiers)
    inner = flags_of(one.modifiers) | (INTERFACE | FLAGS["abstract"] if interface else 0)
    inner |= (ENUM | FLAGS["final"]) if one.kind == "enum" else 0
    inner |= ANNOTATION if one.kind == "@interface" else 0
    flags = inner & ~FLAGS["static"] & ~FLAGS["protected"] | FLAGS["public"] | (0 if interface else SUPER)

    fields = []
    for each in one.fields:
        flag = flags_of(each.modifiers) | (ENUM if one.kind == "enum" and each.descriptor == f"L{one.name};" else 0)
        if interface:
            flag |= FLAGS["public"] | FLAGS["static"] | FLAGS["final"]
        attributes = []
        if each.constant is not None:
            attributes = [attribute(pool, "ConstantValue", struct.pack(">H", pool.constant(each.constant, each.descriptor)))]
        fields.append(member(pool, each, flag, attributes))

    methods = []
    for each in one.methods:
        flag = flags_of(each.modifiers) & ~FLAGS["volatile"] & ~FLAGS["transient"] & ~FLAGS["native"] & ~FLAGS["strictfp"]
        flag |= VARARGS if each.varargs else 0
        if interface and not each.modifiers & {"default", "static"}:
            flag |= FLAGS["abstract"] | FLAGS["public"]
        attributes = []
        if not flag & FLAGS["abstract"]:
            slots = arguments(each.descriptor) + (0 if flag & FLAGS["static"] else 1)
            code = b"\x01\xbf"  # aconst_null, athrow
            attributes.append(attribute(pool, "Code", struct.pack(">HHI", 1, slots, len(code)) + code + struct.pack(">HH", 0, 0)))
        if each.throws:
            thrown = [pool.class_(name) for name in each.throws]
            attributes.append(attribute(pool, "Exceptions", struct.pack(f">H{len(thrown)}H", len(thrown), *thrown)))
        methods.append(member(pool, each, flag, attributes))

    attributes = [attribute(pool, "Signature", struct.pack(">H", pool.text(one.signature)))]
    if one.runtime_annotation:
        # @Retention(RUNTIME): without it the web view would not see what the app offers to its page.
        element = struct.pack(">H", pool.text("value")) + b"e" + struct.pack(
            ">HH", pool.text("Ljava/lang/annotation/RetentionPolicy;"), pool.text("RUNTIME"))
        retention = struct.pack(">HHH", 1, pool.text("Ljava/lang/annotation/Retention;"), 1) + element
        attributes.append(attribute(pool, "RuntimeVisibleAnnotations", retention))
    rows = [
        struct.pack(">HHHH", pool.class_(name), pool.class_(name.rpartition("$")[0]), pool.text(name.rpartition("$")[2]), bits)
        for name, bits in nested
    ]
    if rows:
        attributes.append(attribute(pool, "InnerClasses", struct.pack(">H", len(rows)) + b"".join(rows)))

    this = pool.class_(one.name)
    parent = pool.class_(one.superclass) if one.superclass else 0
    above = [pool.class_(name) for name in one.interfaces]
    body = struct.pack(">HHH", flags, this, parent) + struct.pack(f">H{len(above)}H", len(above), *above)
    for rows in (fields, methods, attributes):
        body += struct.pack(">H", len(rows)) + b"".join(rows)
    return struct.pack(">IHH", 0xCAFEBABE, 0, 52) + pool.bytes() + body


def inner_flags(one):
    """The access of a class named with a $, as its outer class tells it."""
    flags = sum(FLAGS.get(word, 0) for word in one.modifiers)
    if one.kind in ("interface", "@interface"):
        flags |= INTERFACE | FLAGS["abstract"] | FLAGS["static"]
    if one.kind == "@interface":
        flags |= ANNOTATION
    return flags | (ENUM | FLAGS["static"] | FLAGS["final"] if one.kind == "enum" else 0)


def read(data):
    """Name, superclass, interfaces, fields and methods (as name and descriptor) of a class file."""
    count, at, pool, index = struct.unpack_from(">H", data, 8)[0], 10, {}, 1
    while index < count:
        tag = data[at]
        if tag == 1:
            length = struct.unpack_from(">H", data, at + 1)[0]
            pool[index] = data[at + 3 : at + 3 + length].decode("utf-8", "replace")
            at += 3 + length
        else:
            if tag in (7, 8, 16, 19, 20):
                pool[index] = struct.unpack_from(">H", data, at + 1)[0]
            at += {3: 5, 4: 5, 5: 9, 6: 9, 7: 3, 8: 3, 9: 5, 10: 5, 11: 5, 12: 5, 15: 4, 16: 3, 17: 5, 18: 5, 19: 3, 20: 3}[tag]
        index += 2 if tag in (5, 6) else 1
    _, this, parent, interfaces = struct.unpack_from(">HHHH", data, at)
    name_of = lambda entry: pool[pool[entry]] if entry else None
    above = [name_of(struct.unpack_from(">H", data, at + 8 + 2 * one)[0]) for one in range(interfaces)]
    at += 8 + 2 * interfaces
    tables = []
    for _ in range(2):
        rows = struct.unpack_from(">H", data, at)[0]
        at += 2
        table = set()
        for _ in range(rows):
            _, name, descriptor, attributes = struct.unpack_from(">HHHH", data, at)
            table.add((pool[name], pool[descriptor]))
            at += 8
            for _ in range(attributes):
                at += 6 + struct.unpack_from(">I", data, at + 2)[0]
        tables.append(table)
    return name_of(this), name_of(parent), above, *tables
