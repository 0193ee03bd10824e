import type { LookAtPhotos } from './open-manifest.ts';
import type { PhotoRoom } from './photo-room.ts';

/** Photos are looked at in the photo room. */
export function lookingAtPhotos(room: PhotoRoom): LookAtPhotos {
  return ({ photosFolder, people }, photos, signal) => {
    const asked = photos.map((photo) => {
      const digest = people.photos.get(photo)?.digest;
      return { photo, ...(digest !== undefined && { digest }) };
    });
    return room.ask('states', { folder: photosFolder, photos: asked }, { signal });
  };
}
