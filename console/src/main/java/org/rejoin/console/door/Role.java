package org.rejoin.console.door;

/** What somebody at the page may do. */
public enum Role {
    INSTRUCTOR,
    /** See and work his own seat. */
    PILOT
}
