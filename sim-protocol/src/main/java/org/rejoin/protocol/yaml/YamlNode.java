package org.rejoin.protocol.yaml;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

import org.jspecify.annotations.Nullable;

/** A piece of a file written by hand that knows where it stands. Values stay text: the ident NO is an ident. */
public sealed interface YamlNode {

    /** {@return where it begins; line of the file, from 1} */
    int line();

    /** {@return where in its line it begins; column, from 1} */
    int column();

    /** {@return what it is, for a message; the value in quotes, cut where it is long; or what kind of thing it is} */
    String described();

    /** Says what is wrong with it. */
    default YamlException fault(String message) {
        return new YamlException(line(), column(), message);
    }

    /** A single value as written, without its quotes; {@code absent} where it was left empty or written as null. */
    record Scalar(int line, int column, String text, boolean absent) implements YamlNode {

        private static final int SHOWN = 40;

        @Override
        public String described() {
            if (absent) {
                return "nothing";
            }
            return "\"" + (text.length() > SHOWN ? text.substring(0, SHOWN) + "..." : text) + "\"";
        }

        /** The value as a number, read as a person reads it: 060 is sixty; empty if it is none. */
        public OptionalDouble number() {
            return PlainNumber.read(text);
        }

        /**
         * {@return how a number that was meant would be written; "; write 38.5" or the like, empty where nothing can be
         * guessed}
         */
        public String numberHint() {
            return PlainNumber.hint(text);
        }
    }

    /** A list. */
    record Sequence(int line, int column, List<YamlNode> items) implements YamlNode {

        /** Copies. */
        public Sequence {
            items = List.copyOf(items);
        }

        @Override
        public String described() {
            return "a list";
        }
    }

    /** Keys with values, in the order of the file. */
    record Mapping(int line, int column, Map<String, Member> members) implements YamlNode {

        /** Copies, keeping the order. */
        public Mapping {
            members = Collections.unmodifiableMap(new LinkedHashMap<>(members));
        }

        /** {@return the member of a name; null if it is not there, or has no value} */
        public @Nullable Member given(String name) {
            Member member = members.get(name);
            return member != null && member.value() instanceof Scalar scalar && scalar.absent() ? null : member;
        }

        @Override
        public String described() {
            return "a mapping";
        }
    }

    /** A key, where it stands, and its value. */
    record Member(int line, int column, YamlNode value) {}
}
