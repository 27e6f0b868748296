#pragma once
// Custody events as an EPCIS 2.0 document in JSON-LD, with words of the Core Business Vocabulary 2.0 (GS1;
// schema: EPCIS-JSON-Schema).
//
// Names are GS1 Digital Link addresses where GS1 numbers are known, else addresses under the site's own
// `web`:
//   a lot       https://id.gs1.org/01/GTIN/10/LOT       WEB lot/CODE
//   a pallet    https://id.gs1.org/00/SSCC
//   the site    https://id.gs1.org/414/GLN              WEB site
//   a partner   https://id.gs1.org/417/GLN              WEB partner/CODE
//   a document  urn:epcglobal:cbv:bt:GLN:NUMBER         WEB document/PARTNER/NUMBER
//   an event    WEB event/ENTRY or WEB event/ENTRY.PART: the same each time it is written
// Amounts are kilograms (uom KGM), or pieces without a unit. Local time with its offset; recordTime is when
// it was written down.
#include <string>

#include "trace/custody.h"

namespace peelbook::output {

std::string epcis_json(const trace::Custody& custody);

}  // namespace peelbook::output
