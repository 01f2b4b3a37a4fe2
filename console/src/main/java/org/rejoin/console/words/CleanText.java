package org.rejoin.console.words;

/** Text from a file or a datagram, made fit for HTML, XML and a terminal: what none may contain becomes U+FFFD. */
public final class CleanText {

    private static final char REPLACEMENT = '\uFFFD';

    private CleanText() {}

    /** Keeps the characters of XML 1.0, section 2.2, without the controls it discourages; escapes nothing. */
    public static String of(String text) {
        StringBuilder clean = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); ) {
            int c = text.codePointAt(i);
            i += Character.charCount(c);
            boolean control = c < ' ' ? (c != '\t' && c != '\n') : (c >= 0x7F && c <= 0x9F);
            boolean half = c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE;
            // Overrides of the writing direction would let a text be read as another.
            boolean direction = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
            boolean never = (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
            clean.appendCodePoint(control || half || direction || never ? REPLACEMENT : c);
        }
        return clean.toString();
    }

    /**
     * As one line for a terminal, without ends of lines: a text that goes on to a next line could be read as another
     * line of the program's.
     */
    public static String line(String text) {
        return of(text.strip()).replace('\n', ' ').replace('\t', ' ');
    }
}
