package org.rejoin.bridge.clearance;

import java.util.ArrayDeque;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.ATN;
import org.antlr.v4.runtime.atn.ATNState;
import org.antlr.v4.runtime.atn.RuleStopState;
import org.antlr.v4.runtime.atn.RuleTransition;
import org.antlr.v4.runtime.atn.Transition;
import org.jspecify.annotations.Nullable;

/**
 * Follows the grammar's network word by word, to find the first word after which no clearance could go on and all that
 * would have been understood there. The parser knows only where its own look-ahead gave up, which may be words earlier.
 *
 * @param index of the first token that cannot follow those before it
 * @param expected types of the tokens that can; bit 0 is the end of the text
 */
record ViablePrefix(int index, BitSet expected) {

    /** The way back out of nested rules; null is the end of the outermost. */
    private record Return(ATNState to, @Nullable Return outer) {}

    private record Config(ATNState state, @Nullable Return back) {}

    /**
     * Follows tokens from the start of a rule. The grammar is not recursive, so the ways back are finite.
     *
     * @param network of the grammar
     * @param rule index
     * @param tokens with the end of the text last; not a sentence of the rule
     */
    static ViablePrefix of(ATN network, int rule, List<Token> tokens) {
        return of(network, rule, tokens, tokens.size());
    }

    /** The same, ending at some token at the latest. */
    static ViablePrefix of(ATN network, int rule, List<Token> tokens, int last) {
        Set<Config> reached = closure(Set.of(new Config(network.ruleToStartState[rule], null)));
        int index = 0;
        while (index < last) {
            Set<Config> next = step(reached, tokens.get(index).getType(), network.maxTokenType);
            if (next.isEmpty()) {
                break;
            }
            reached = closure(next);
            index++;
        }
        BitSet expected = new BitSet();
        for (int type = Token.EOF; type <= network.maxTokenType; type++) {
            if (type != 0 && !step(reached, type, network.maxTokenType).isEmpty()) {
                expected.set(Math.max(0, type));
            }
        }
        return new ViablePrefix(Math.min(index, tokens.size() - 1), expected);
    }

    private static Set<Config> step(Set<Config> from, int type, int highest) {
        Set<Config> next = new HashSet<>();
        for (Config config : from) {
            for (Transition transition : config.state().getTransitions()) {
                if (!transition.isEpsilon() && transition.matches(type, Token.MIN_USER_TOKEN_TYPE, highest)) {
                    next.add(new Config(transition.target, config.back()));
                }
            }
        }
        return next;
    }

    private static Set<Config> closure(Set<Config> from) {
        Set<Config> closed = new HashSet<>(from);
        Deque<Config> open = new ArrayDeque<>(from);
        while (!open.isEmpty()) {
            Config config = open.remove();
            Return back = config.back();
            if (config.state() instanceof RuleStopState) {
                if (back != null) {
                    add(new Config(back.to(), back.outer()), closed, open);
                }
                continue;
            }
            for (Transition transition : config.state().getTransitions()) {
                if (transition instanceof RuleTransition call) {
                    add(new Config(call.target, new Return(call.followState, back)), closed, open);
                } else if (transition.isEpsilon()) {
                    add(new Config(transition.target, back), closed, open);
                }
            }
        }
        return closed;
    }

    private static void add(Config config, Set<Config> closed, Deque<Config> open) {
        if (closed.add(config)) {
            open.add(config);
        }
    }
}
