package org.rejoin.console.page;

import org.rejoin.console.json.Json;

/**
 * One piece of the picture on its way to browsers.
 *
 * @param topic decides who sees it
 * @param replaces what an earlier one of the same name is replaced by, where only the last counts; empty text otherwise
 * @param json one object on one line
 */
record Message(Topic topic, String replaces, String json) {

    /** A message to the page: one object on one line, so that one message is one line of the stream. */
    static String json(String kind, Json.Content members) {
        return Json.object(json -> {
            json.writeStringField("k", kind);
            members.write(json);
        });
    }
}
