import { Module } from '@nestjs/common';
import { WhatIfsController } from './what-ifs.controller.js';
import { WhatIfsService } from './what-ifs.service.js';

/** What-ifs: a lot under another plan revision or limit. */
@Module({ controllers: [WhatIfsController], providers: [WhatIfsService] })
export class WhatIfsModule {}
