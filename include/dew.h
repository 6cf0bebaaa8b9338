/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything the library offers.  For users; the library's own code includes
   the headers it needs. */
#ifndef DEW_H
#define DEW_H

#include "dew/air.h"
#include "dew/buffer.h"
#include "dew/cautions.h"
#include "dew/climate.h"
#include "dew/co2.h"
#include "dew/coil.h"
#include "dew/coil_store.h"
#include "dew/control.h"
#include "dew/core.h"
#include "dew/cost.h"
#include "dew/dryer.h"
#include "dew/ducts.h"
#include "dew/excess.h"
#include "dew/exchange.h"
#include "dew/frost.h"
#include "dew/house.h"
#include "dew/leakage.h"
#include "dew/library.h"
#include "dew/made.h"
#include "dew/march.h"
#include "dew/mould.h"
#include "dew/plant.h"
#include "dew/rates.h"
#include "dew/report.h"
#include "dew/scenario.h"
#include "dew/sources.h"
#include "dew/status.h"
#include "dew/study.h"
#include "dew/study_inputs.h"
#include "dew/sun.h"
#include "dew/surface.h"
#include "dew/thermal.h"
#include "dew/unit.h"
#include "dew/verdict.h"
#include "dew/weather.h"
#include "dew/windows.h"

#endif
