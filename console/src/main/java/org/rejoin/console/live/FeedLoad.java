package org.rejoin.console.live;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.words.Words;

/** Says when more comes than can be followed: what the system dropped, and how far the flight is behind. */
public final class FeedLoad {

    /** Less is a busy moment that no one sees, seconds; common practice, no source. */
    static final double BEHIND_S = 2;

    private static final double UP_TO_DATE_S = 0.5;

    private long saidDropped;
    private double saidBehindS;

    /** What is new to say, given how things stand; each number again only when it has doubled. */
    List<String> look(double behindS, long droppedBySystem) {
        List<String> lines = new ArrayList<>();
        if (droppedBySystem > 0 && droppedBySystem >= 2 * saidDropped) {
            saidDropped = droppedBySystem;
            lines.add(droppedBySystem
                    + " datagrams were lost in the system before this program could take them: more comes"
                    + " than this machine can follow");
        }
        if (behindS >= BEHIND_S && behindS >= 2 * saidBehindS) {
            saidBehindS = behindS;
            lines.add(Words.say("Rejoin is %.0f s behind what is sent", behindS));
        } else if (saidBehindS > 0 && behindS < UP_TO_DATE_S) {
            saidBehindS = 0;
            lines.add("Rejoin is up to date again");
        }
        return lines;
    }
}
