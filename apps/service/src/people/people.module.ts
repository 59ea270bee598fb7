import { Module } from '@nestjs/common';
import { OutsideIdentitiesController } from './outside-identities.controller.js';
import { OutsideIdentities } from './outside-identities.js';
import { PeopleController } from './people.controller.js';
import { PeopleService } from './people.service.js';

/** People: who works in the lab and what they may do. */
@Module({ controllers: [PeopleController, OutsideIdentitiesController], providers: [PeopleService, OutsideIdentities] })
export class PeopleModule {}
