package org.rejoin.protocol.nmea;

/** Sentences without a time of their own that came before their epoch: a heading, say, that is sent ahead of its position. */
final class Waiting {

    /** How long one may wait for the position that follows it. */
    private static final long LONGEST_MICROS = 1_000_000;

    private static final int MOST = 16;

    private final byte[][] sentences = new byte[MOST][];
    private final int[] lengths = new int[MOST];
    private final long[] keys = new long[MOST];
    private final long[] micros = new long[MOST];
    private final Sentence sentence = new Sentence();
    private int count;

    /** Keeps a sentence, in place of an earlier one of its key. */
    void add(Sentence early, long key, long atMicros) {
        int slot = 0;
        while (slot < count && keys[slot] != key) {
            slot++;
        }
        if (slot == MOST) {
            return;
        }
        if (sentences[slot] == null) {
            sentences[slot] = new byte[Sentence.LONGEST];
        }
        count = Math.max(count, slot + 1);
        lengths[slot] = early.copyTo(sentences[slot]);
        keys[slot] = key;
        micros[slot] = atMicros;
    }

    /** Adds all that is not too old to an epoch that just opened, and forgets it. */
    void giveTo(Epoch epoch, SentenceReader reader, long atMicros) {
        for (int slot = 0; slot < count; slot++) {
            if (atMicros - micros[slot] <= LONGEST_MICROS) {
                sentence.scan(sentences[slot], 0, lengths[slot]);
                epoch.heard(keys[slot], sentence.print(), atMicros);
                reader.read(sentence, epoch);
            }
        }
        count = 0;
    }
}
