package org.rejoin.protocol.profile;

import java.util.ArrayList;
import java.util.List;

/**
 * One field of a line of text, as a profile addresses it.
 *
 * @param at field number from 0; 0 where fields go by key
 * @param key field key; empty text where fields go by number
 * @param text what stands there
 */
public record TextField(int at, String key, String text) {

    /** Takes a line apart; the fields in order; of a layout with keys only those that have one. */
    public static List<TextField> of(String line, Layout.Text layout) {
        TextRecord record = TextRecord.of(line, layout);
        List<TextField> fields = new ArrayList<>();
        if (layout.keyed()) {
            record.keyed().forEach((key, text) -> fields.add(new TextField(0, key, text)));
        } else {
            for (String text : record.fields()) {
                fields.add(new TextField(fields.size(), "", text));
            }
        }
        return fields;
    }

    /** The field as a number; not a number if it is none. */
    public double number(char decimal) {
        return TextRecord.number(text, decimal);
    }
}
