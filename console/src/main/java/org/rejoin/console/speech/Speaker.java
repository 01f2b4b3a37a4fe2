package org.rejoin.console.speech;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Semaphore;

/** Says clearances with the speech program of this machine. May be used by several threads; two programs run at a time. */
public final class Speaker {

    /** The slowest and fastest that is spoken, words a minute. */
    public static final int SLOWEST = 80;

    /** The fastest. */
    public static final int FASTEST = 240;

    /** At most 100 words a minute (ICAO Annex 10, volume II, 5.2.1.5.3 b; from memory). In practice more. */
    public static final int USUAL = 130;

    /** The longest clearance takes a minute and a half at the slowest. */
    private static final double MOST_SOUND_S = 120;

    private static final int MOST_OCTETS = 6_000_000;
    private static final int MOST_WORDS = 65_536;
    private static final double MOST_PROCESS_S = 10;
    private static final int MOST_CHARACTERS = 1_500;
    private static final int KEPT = 16;

    private record Asked(String text, int wordsAMinute) {}

    private final Voice voice;
    private final Semaphore running = new Semaphore(2);
    private final Map<Asked, Sound> kept = new LinkedHashMap<>(KEPT, 0.75f, true) {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Asked, Sound> eldest) {
            return size() > KEPT;
        }
    };

    /** Speaks with this program. */
    public Speaker(Voice voice) {
        this.voice = voice;
    }

    /** {@return the name of the program, as "flite"} */
    public String programName() {
        return voice.programName();
    }

    /**
     * Says a text. Waits for the program.
     *
     * @param text as {@link Aloud} gives it: letters, blanks, commas, full stops, hyphens, apostrophes
     * @param wordsAMinute {@value #SLOWEST} to {@value #FASTEST}
     * @return clean, without radio
     * @throws IOException if the program fails, or two are running for too long; one line
     * @throws IllegalArgumentException if text or pace is none of these
     */
    public Sound say(String text, int wordsAMinute) throws IOException {
        if (text.length() > MOST_CHARACTERS || !text.matches("[A-Za-z ,.'-]*") || text.startsWith("-")) {
            throw new IllegalArgumentException("only words are spoken, " + MOST_CHARACTERS + " characters at most");
        }
        if (wordsAMinute < SLOWEST || wordsAMinute > FASTEST) {
            throw new IllegalArgumentException(
                    wordsAMinute + " words a minute is not in " + SLOWEST + " to " + FASTEST);
        }
        Asked asked = new Asked(text, wordsAMinute);
        synchronized (kept) {
            Sound before = kept.get(asked);
            if (before != null) {
                return before;
            }
        }
        if (!running.tryAcquire()) {
            throw new IOException("two clearances are being made into sound: try again");
        }
        try (PrivateFolder folder = new PrivateFolder()) {
            Path wav = folder.file("said.wav");
            Child.run(voice.command(text, wordsAMinute, wav), voice.input(text), MOST_PROCESS_S, MOST_WORDS);
            Sound sound = Sound.read(PrivateFolder.read(wav, MOST_OCTETS), MOST_SOUND_S);
            synchronized (kept) {
                kept.put(asked, sound);
            }
            return sound;
        } finally {
            running.release();
        }
    }
}
