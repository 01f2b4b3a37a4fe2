package org.rejoin.console.skill;

import java.time.Instant;

/**
 * One piece of evidence: a skill shown, or not, in one flight or paper drill. What was not judged, or never flown to, is
 * no mark.
 *
 * @param pilot whose it is
 * @param at when the flight or drill ended
 * @param skill that was shown
 * @param difficulty of the drill for this skill, logits; 0 is the standard
 * @param right whether it was shown
 * @param guessChance of a right answer without knowing: 0.5 where two ways exist and one is right, else 0
 * @param again whether the same drill was done within the day before: it counts half
 */
public record Mark(
        String pilot, Instant at, Skill skill, double difficulty, boolean right, double guessChance, boolean again) {

    /**
     * Checks the numbers.
     *
     * @throws IllegalArgumentException if the difficulty is outside [-10, 10] or the chance outside [0, 0.9], or either is
     *     not a number
     */
    public Mark {
        if (!(Math.abs(difficulty) <= 10)) {
            throw new IllegalArgumentException("difficulty " + difficulty + " is not in -10 to 10 logits");
        }
        if (!(guessChance >= 0 && guessChance <= 0.9)) {
            throw new IllegalArgumentException("chance of guessing " + guessChance + " is not in 0 to 0.9");
        }
    }
}
