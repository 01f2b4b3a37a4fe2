package org.rejoin.console.recording;

import java.io.IOException;

/** A folder that cannot be written to as asked: another program writes to it, or it holds what would be lost. */
public final class PlaceTakenException extends IOException {

    private static final long serialVersionUID = 1L;

    /** Tells the user in one line which folder, why, and what would be right. */
    public PlaceTakenException(String message) {
        super(message);
    }
}
