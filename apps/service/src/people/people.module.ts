import { Module } from '@nestjs/common';
import { PeopleController } from './people.controller.js';
import { PeopleService } from './people.service.js';

/** People: who works in the lab and what they may do. */
@Module({ controllers: [PeopleController], providers: [PeopleService] })
export class PeopleModule {}
