/**
 * The practice room: one program for the whole day. The feed stays open, each aircraft flies its own lesson at its own
 * time, and each attempt goes into the record book. Start with {@link org.rejoin.console.room.Room}. What
 * cannot be read or written is an IOException of one line, for the page.
 */
@NullMarked
package org.rejoin.console.room;

import org.jspecify.annotations.NullMarked;
