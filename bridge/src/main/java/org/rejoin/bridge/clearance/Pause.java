package org.rejoin.bridge.clearance;

import java.util.List;

import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CallsignContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LinkContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NamedCallsignContext;

import org.antlr.v4.runtime.tree.ParseTree;
import org.antlr.v4.runtime.tree.TerminalNode;

/**
 * What stands between one part of a clearance and the next: of which of the two a place between them is said is told by
 * it.
 *
 * @param comma a comma
 * @param stop a full stop, or the beginning or the end of the clearance
 * @param then the word, or "thence"
 * @param and the word
 */
record Pause(boolean comma, boolean stop, boolean then, boolean and) {

    /** Nothing at all. */
    static final Pause NONE = new Pause(false, false, false, false);

    /** The beginning, or the end. */
    static final Pause END = new Pause(false, true, false, false);

    /** Before one of the parts of a sentence. */
    static Pause before(List<ParseTree> parts, int index) {
        return between(parts, index, -1);
    }

    /** Behind it. */
    static Pause behind(List<ParseTree> parts, int index) {
        return between(parts, index, 1);
    }

    boolean none() {
        return equals(NONE);
    }

    /** "And" with no comma: what it joins is one clause. */
    boolean joins() {
        return and && !comma && !stop && !then;
    }

    private static Pause between(List<ParseTree> parts, int index, int step) {
        Pause found = NONE;
        int i = index + step;
        while (i >= 0 && i < parts.size()) {
            ParseTree part = parts.get(i);
            boolean ends = part instanceof CallsignContext
                    || part instanceof NamedCallsignContext
                    || (part instanceof TerminalNode word && word.getSymbol().getType() < 0);
            if (ends) {
                return END;
            }
            if (part instanceof LinkContext link) {
                found = new Pause(
                        found.comma || link.COMMA() != null,
                        found.stop || link.STOP() != null,
                        found.then || link.THEN() != null,
                        found.and || link.AND() != null);
            } else if (part instanceof TerminalNode) {
                found = new Pause(found.comma, true, found.then, found.and);
            } else {
                return found;
            }
            i += step;
        }
        return END;
    }
}
