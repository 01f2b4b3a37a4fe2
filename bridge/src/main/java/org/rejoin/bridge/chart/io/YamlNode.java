package org.rejoin.bridge.chart.io;

import java.util.List;
import java.util.Map;

/** A piece of a YAML file that remembers its line. Scalars stay text: the ident NO is an ident, not a falsehood. */
sealed interface YamlNode {

    /** Line in the file, from 1. */
    int line();

    /** What it is, for a message. */
    String described();

    /** A single value; absent is true for one left empty or written as null. */
    record Scalar(int line, String text, boolean absent) implements YamlNode {

        private static final int SHOWN = 40;

        @Override
        public String described() {
            if (absent) {
                return "nothing";
            }
            return "\"" + (text.length() > SHOWN ? text.substring(0, SHOWN) + "..." : text) + "\"";
        }
    }

    /** A list. */
    record Sequence(int line, List<YamlNode> items) implements YamlNode {

        @Override
        public String described() {
            return "a list";
        }
    }

    /** Keys with values. */
    record Mapping(int line, Map<String, Member> members) implements YamlNode {

        @Override
        public String described() {
            return "a mapping";
        }
    }

    /** A value and the line its key stands in. */
    record Member(int line, YamlNode value) {}
}
