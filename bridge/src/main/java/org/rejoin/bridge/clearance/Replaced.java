package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ExpectWordContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PartOfContext;

import org.antlr.v4.runtime.Token;

/**
 * "Cancel heading 120, direct PRION"; "cancel the climb, maintain 8000": what is taken back ends by what is said in its
 * place. Without that nobody knows what holds, and it is refused.
 */
final class Replaced {

    private Replaced() {}

    /** The instructions but for those; a note says so of each. */
    static List<InstructionContext> without(List<InstructionContext> said, Source source, List<String> notes) {
        List<InstructionContext> left = new ArrayList<>();
        for (int i = 0; i < said.size(); i++) {
            InstructionContext each = said.get(i);
            if (i + 1 < said.size() && replaces(each, said.get(i + 1))) {
                notes.add("\"" + source.words(each) + "\": over, and \"" + source.words(said.get(i + 1))
                        + "\" is in its place");
            } else {
                left.add(each);
            }
        }
        return left;
    }

    private static boolean replaces(InstructionContext taken, InstructionContext next) {
        PartOfContext part = taken.cancel() == null ? null : taken.cancel().partOf();
        if (part == null || !part.expectWord().stream().allMatch(Replaced::isFigure)) {
            return false;
        }
        boolean heading = !part.HEADING().isEmpty()
                || !part.VECTOR().isEmpty()
                || !part.TURN().isEmpty();
        boolean level = !part.CLIMB().isEmpty()
                || !part.DESCEND().isEmpty()
                || !part.DESCENT().isEmpty()
                || !part.ALTITUDE().isEmpty();
        return heading ? !level && isWay(next) : level && (next.level() != null || next.bareLevel() != null);
    }

    private static boolean isFigure(ExpectWordContext word) {
        Token token = word.getStart();
        return Vocabulary.isFigure(token)
                || switch (token.getType()) {
                    case ClearanceLanguageParser.TO,
                            ClearanceLanguageParser.FEET,
                            ClearanceLanguageParser.DEGREES,
                            ClearanceLanguageParser.FL_NUMBER,
                            ClearanceLanguageParser.NUMBER_FT -> true;
                    default -> false;
                };
    }

    private static boolean isWay(InstructionContext next) {
        return next.heading() != null
                || next.turnBy() != null
                || next.presentHeading() != null
                || next.intercept() != null
                || next.arc() != null
                || next.vectorTo() != null
                || next.join() != null
                || next.direct() != null
                || next.clearedTo() != null
                || next.onward() != null;
    }
}
