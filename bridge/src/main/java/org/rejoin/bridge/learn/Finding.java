package org.rejoin.bridge.learn;

import org.rejoin.protocol.profile.Value;

/**
 * One field and what it is taken to be.
 *
 * @param value the field as a profile names it
 * @param sure whether it may be used without asking
 * @param confidence [0, 1]; 0.9 or more only where sure
 * @param place where it stands, in words
 * @param evidence what speaks for it, one line
 */
public record Finding(Value value, boolean sure, double confidence, String place, String evidence) {

    /** {@return the confidence in a word; high, medium or low} */
    public String word() {
        return confidence >= 0.9 ? "high" : confidence >= 0.6 ? "medium" : "low";
    }
}
