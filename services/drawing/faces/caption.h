// The words next to a face: what is seen, of which face, and on which assumptions.
#ifndef ROWPROOF_SERVICES_DRAWING_FACES_CAPTION_H_
#define ROWPROOF_SERVICES_DRAWING_FACES_CAPTION_H_

#include <string>

#include "services/drawing/faces/model.h"
#include "services/drawing/faces/painter.h"
#include "services/drawing/legend.h"

namespace rowproof::drawing {

// "Face 2 of the finished fabric, as seen from behind".
std::string FaceHeading(const FaceModel& model);

Legend FaceCaption(const Typesetter& typesetter, const FaceModel& model, const FaceLook& look,
                   const DrawingRequest& request, double font, double width);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_FACES_CAPTION_H_
