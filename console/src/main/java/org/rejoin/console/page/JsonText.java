package org.rejoin.console.page;

import org.rejoin.console.json.Json;

/** A message to the page: one object on one line, so that one message is one line of the stream. */
final class JsonText {

    private JsonText() {}

    static String object(String kind, Json.Content members) {
        return Json.object(json -> {
            json.writeStringField("k", kind);
            members.write(json);
        });
    }
}
