/**
 * Room for decoded samples that is used again. New room for every piece would be four megabytes of zeros each time, and
 * memory outside its heap is what makes the engine collect garbage: ten times a track, 0.2 s of six minutes.
 */
export interface Rooms {
  /** Room for at least so many bytes; what stands in it is of no account. */
  take(this: void, bytes: number): ArrayBuffer;
  /** Gives back room that was taken; any other is left alone. */
  giveBack(room: ArrayBufferLike): void;
}

/** Rooms are whole megabytes, so that pieces of slightly different lengths fit into each other's. */
const STEP = 1 << 20;

export function createRooms(): Rooms {
  const taken = new WeakSet<ArrayBufferLike>();
  let spare: ArrayBuffer[] = [];
  return {
    take(bytes) {
      const found = spare.find((room) => room.byteLength >= bytes) ?? new ArrayBuffer(Math.ceil(bytes / STEP) * STEP);
      // What was too small once will be too small again.
      spare = spare.filter((room) => room !== found && room.byteLength >= bytes);
      taken.add(found);
      return found;
    },
    giveBack(room) {
      if (taken.delete(room)) spare.push(room as ArrayBuffer);
    },
  };
}
